package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.faults.FaultLevel;
import org.junit.jupiter.api.Test;

/**
 * Days of roots are foretold as surely as they are told, in both worlds together; each apart, on
 * more cups, stands in the testing page.
 */
class RootingTrialTest {
  private static final int CUPS = 24;
  private static final int DAYS = 70;

  @Test
  void eightOfTenBandsHoldTheDay() throws Exception {
    RootingScore both = new RootingScore();
    for (World world : World.values()) {
      Rehearsal of = new Rehearsal(UsualBench.of(CUPS), DAYS, FaultLevel.COMMON).in(world);
      both.add(RootingTrial.run(RootingTrial.seenBefore(of, 7001, 1), 8001));
    }
    String told = String.join("\n", both.lines());
    assertEquals(0.80, both.within(RootStage.WHITE), 0.10, told);
    assertEquals(0.80, both.within(RootStage.TOUGHENED), 0.10, told);
  }
}
