package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Worked out by hand; e = 2.71828. */
class FlushTest {
  /**
   * From 2.6 in water of 0.3: 300 ln(2.3 / 0.7) = 356.9 mL run through, after the room is filled.
   */
  @ParameterizedTest(name = "{0} mS/cm, water {1}, {2} mL, room {3} mL: {4} mL")
  @CsvSource({
    "2.6, 0.3, 300, 0, 356.88",
    "2.6, 0.3, 300, 120, 476.88",
    "2.6, 0.3, 300, -10, 356.88",
    "2.6, 0.0, 300, 0, 286.65",
    "3.0, 0.9, 200, 50, 358.09",
    "1.0, 0.3, 300, 120, 0",
    "0.4, 0.3, 300, 120, 0"
  })
  void fillsTheCupAndRunsThrough(
      double msPerCm, double water, double capacityMl, double roomMl, double ml) {
    assertEquals(ml, Flush.ml(msPerCm, water, capacityMl, roomMl), 0.01);
  }

  @ParameterizedTest(name = "water {0}: {1}")
  @CsvSource({"0, 1.0", "0.3, 1.0", "0.9, 1.35", "2.0, 3.0"})
  void reachesAGoalThatTheWaterAllows(double water, double goal) {
    assertEquals(goal, Flush.reachesMsPerCm(water), 1e-12);
  }

  /** (2.6 - 1.35) x 300 = 375 mS/cm x mL; 0.9 x 20 = 18 a day. */
  @ParameterizedTest(name = "water {0}, {1} mL a day: {2} days")
  @CsvSource({"0.9, 20, 20.833", "0.3, 20, 80", "2.0, 20, 0"})
  void watersOwnSaltsComeBack(double water, double lostMlPerD, double days) {
    assertEquals(days, Flush.lastsDays(water, 300, lostMlPerD), 0.001);
  }
}
