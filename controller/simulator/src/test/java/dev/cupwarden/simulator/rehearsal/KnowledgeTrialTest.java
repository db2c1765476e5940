package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.simulator.faults.FaultLevel;
import org.junit.jupiter.api.Test;

/**
 * What the controller tells of its own doubt is true of the cups of both worlds together: one world
 * draws them closer to the bench file than the other, and nobody knows in which one lives.
 */
class KnowledgeTrialTest {
  @Test
  void doubtIsToldAsGreatAsItIs() throws Exception {
    EstimateScore both = new EstimateScore();
    for (World world : World.values()) {
      Rehearsal of = new Rehearsal(UsualBench.of(12), 40, FaultLevel.COMMON).in(world);
      both.add(KnowledgeTrial.run(of, 9401));
      both.add(KnowledgeTrial.run(of, 9402));
    }
    String told = String.join("\n", both.linesOfItself(""));
    assertEquals(0.68, both.depletionsWithinSds(1), 0.10, told);
    assertEquals(0.95, both.depletionsWithinSds(2), 0.04, told);
    assertEquals(0.80, both.daysAheadInBounds(), 0.08, told);
    assertTrue(both.medianDayAheadErrorH() < 2, told);
  }
}
