package dev.cupwarden.simulator.physics;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class LaminarHoseTest {
  private static LaminarHose full() {
    LaminarHose hose = new LaminarHose(12);
    for (int i = 0; i < 20_000; i++) {
      hose.push(12, 1);
    }
    return hose;
  }

  /** Levenspiel, Chemical Reaction Engineering, 3rd ed., p. 344: 1 - F integrated. */
  @Test
  void aQuarterIsLeftAfterOneVolumeAndAnEighthAfterTwo() {
    LaminarHose hose = full();
    assertEquals(12, hose.labelMl(), 1e-6);
    hose.push(12, 0);
    assertEquals(3, hose.labelMl(), 0.01);
    hose.push(12, 0);
    assertEquals(1.5, hose.labelMl(), 0.01);
  }

  @Test
  void whatGoesInInSmallStepsComesOutAsInOne() {
    LaminarHose once = full();
    LaminarHose steps = full();
    double whole = once.push(30, 0.25);
    double sum = 0;
    for (int i = 0; i < 300; i++) {
      sum += 0.1 * steps.push(0.1, 0.25);
    }
    assertEquals(whole, sum / 30, 1e-9);
    assertEquals(once.labelMl(), steps.labelMl(), 1e-9);
  }

  @Test
  void withoutVolumeNothingStays() {
    LaminarHose none = new LaminarHose(0);
    assertEquals(0.5, none.push(10, 0.5));
    assertEquals(0, none.labelMl());
  }
}
