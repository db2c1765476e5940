package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Sums that fade by e in 36 hours: our choice. */
class DryingUseTest {
  /** Within 36 h at an even rate its own beginning has faded: 36 (1 - 1/e) h of them are left. */
  @Test
  void longIntervalHasFadedItself() {
    DryingUse use = DryingUse.NONE.add(72, 36, 0.5);
    double hours = 36 * (1 - 1 / Math.E);
    assertEquals(hours, use.hours(), 1e-9);
    assertEquals(2 * hours, use.lossG(), 1e-9);
    assertEquals(0.5 * hours, use.driveKpaH(), 1e-9);
    assertEquals(2 * hours, use.lossWithDriveG(), 1e-9);
    assertEquals(2.0, use.meanGPerH(), 1e-12);
    // 2 g/h in 0.5 kPa: 4 g/h in 1.0 kPa, which is a deficit of 0.9.
    assertEquals(4.0, use.gPerHAt(0.9), 1e-12);
  }

  @Test
  void whatWasBeforeFades() {
    DryingUse use = DryingUse.NONE.add(72, 36, 0.5).add(0, 36, 0.5);
    double hours = 36 * (1 - 1 / Math.E);
    assertEquals(hours * (1 + 1 / Math.E), use.hours(), 1e-9);
    assertEquals(2 * hours / Math.E, use.lossG(), 1e-9);
    assertEquals(0.5 * hours * (1 + 1 / Math.E), use.driveKpaH(), 1e-9);
    assertEquals(2 * hours / Math.E, use.lossWithDriveG(), 1e-9);
    assertEquals(2 / (Math.E + 1), use.meanGPerH(), 1e-9);
  }

  @Test
  void airThatNobodyMeasuredIsLeftOut() {
    DryingUse use = DryingUse.NONE.add(10, 5, 0.5).add(10, 5, Double.NaN).add(10, 5, 0);
    DryingUse driven = DryingUse.NONE.add(10, 5, 0.5);
    double fade = Math.exp(-10 / 36.0);
    assertEquals(driven.driveKpaH() * fade, use.driveKpaH(), 1e-9);
    assertEquals(driven.lossWithDriveG() * fade, use.lossWithDriveG(), 1e-9);
    assertEquals(2.0, use.meanGPerH(), 1e-9);
  }

  @Test
  void knownFromThreeHoursOnAndByItsAirFromAFifthOfAKilopascalHour() {
    assertFalse(new DryingUse(3, 2.999, 1, 3).known());
    assertTrue(new DryingUse(3, 3, 1, 3).known());
    assertTrue(new DryingUse(3, 3, 0.201, 3).knownPerKpa());
    assertFalse(new DryingUse(3, 3, 0.2, 3).knownPerKpa());
    assertFalse(new DryingUse(3, 2.999, 1, 3).knownPerKpa());
  }

  @Test
  void neverBelowNothing() {
    assertEquals(0.0, DryingUse.NONE.meanGPerH());
    assertEquals(0.0, new DryingUse(-3, 5, 1, -3).meanGPerH());
    assertEquals(0.0, new DryingUse(-3, 5, 1, -3).gPerHAt(1));
    assertEquals(new DryingUse(5, 0, 0, 5), DryingUse.NONE.add(5, 0, 1), "a moment");
  }
}
