package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.simulator.faults.FaultLevel;
import org.junit.jupiter.api.Test;

class EstimateTrialTest {
  private static final Rehearsal FORTNIGHT =
      new Rehearsal(UsualBench.of(24), 14, FaultLevel.COMMON);

  @Test
  void cupsAreKnownThroughFaultsHandsAndWarmAfternoons() {
    EstimateScore score = EstimateTrial.run(FORTNIGHT, 7);
    String all = String.join("\n", score.lines());
    assertTrue(score.massWithin(0.5) >= 0.95, all);
    assertTrue(score.toldRight() >= 0.95, all);
    assertTrue(score.dosesWithin() >= 0.95, all);
    assertTrue(score.medianForecastError() <= 0.1, all);
  }

  @Test
  void theSameSeedGivesTheSameFigures() {
    assertEquals(EstimateTrial.run(FORTNIGHT, 3).lines(), EstimateTrial.run(FORTNIGHT, 3).lines());
  }

  @Test
  void aScoreTogetherWithItselfIsTheSameOfTwiceAsMany() {
    EstimateScore once = EstimateTrial.run(FORTNIGHT, 1);
    EstimateScore twice = EstimateTrial.run(FORTNIGHT, 1);
    twice.add(once);
    assertEquals(once.massWithin(0.2), twice.massWithin(0.2), 1e-12);
    assertEquals(once.toldRight(), twice.toldRight(), 1e-12);
    assertEquals(once.medianForecastError(), twice.medianForecastError(), 1e-12);
  }
}
