package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A bench that loses 3 g/h in the light and 0.5 by night, each for twelve hours. */
class ShareTest {
  private static final double LIGHT = 3;
  private static final double DARK = 0.5;

  private static Share day(Share share, double lightPart, double darkPart, int wateredH) {
    Share now = share;
    for (int hour = 0; hour < 12; hour++) {
      now = now.plus(darkPart * DARK, DARK, 1);
    }
    for (int hour = 0; hour < 12; hour++) {
      now = hour < wateredH ? now.watered(LIGHT, 1) : now.plus(lightPart * LIGHT, LIGHT, 1);
    }
    return now;
  }

  /** Left out, those hours would make 1.64 of the leafy cup's 1.71. */
  @Test
  void hoursOfWateringCountAsTheOtherBrightOnes() {
    Share share = Share.NONE;
    // Which hours are bright is not known before the first day.
    share = day(share, 1.9, 0.6, 0);
    for (int day = 0; day < 20; day++) {
      share = day(share, 1.9, 0.6, 5);
    }
    double true24h = (12 * 1.9 * LIGHT + 12 * 0.6 * DARK) / (12 * (LIGHT + DARK));
    assertEquals(true24h, share.part(), 0.002);
    assertEquals(21, share.days());
  }

  @Test
  void aDimDaySaysLessThanABrightOne() {
    Share learned = Share.NONE;
    for (int day = 0; day < 10; day++) {
      learned = day(learned, 1, 1, 0);
    }
    Share bright = learned;
    Share dim = learned;
    for (int hour = 0; hour < 24; hour++) {
      bright = bright.plus(1.2 * LIGHT, LIGHT, 1);
      dim = dim.plus(1.2 * 0.1, 0.1, 1);
    }
    assertTrue(bright.log() > 4 * dim.log(), bright.log() + ", " + dim.log());
  }

  @Test
  void aShareKeptByAnOlderProgramHasNoBrightHours() {
    Share older = new Share(0.1, 0, 0, 0, 0, 0, 5, 12, 12, 12, null);
    assertEquals(6, day(older, 1, 1, 3).days());
  }
}
