package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Slots of four hours by the clock in UTC, worked out by hand; all figures are our choice. */
class LossLogTest {
  private static final Instant MIDNIGHT = Instant.parse("2027-02-14T00:00:00Z");
  private static final double EXACT = 1e-12;

  private static Instant after(double hours) {
    return MIDNIGHT.plusSeconds(Math.round(hours * 3600.0));
  }

  /** In half as dry air as 1 kPa, and a light of 50. */
  private static LossLog.Slot lost(double g, double seenH) {
    return new LossLog.Slot(MIDNIGHT, g, g, g, seenH, 0.5 * seenH, 50.0 * seenH);
  }

  /** One loss in the middle of each slot; the last of them is still open. */
  private static LossLog slots(double... lostG) {
    LossLog log = LossLog.EMPTY;
    for (int slot = 0; slot < lostG.length; slot++) {
      log = log.plus(after(4 * slot + 2), lost(lostG[slot], 4.0));
    }
    return log;
  }

  @Test
  void lossBelongsToTheSlotOfItsClock() {
    LossLog log = LossLog.EMPTY.plus(after(3.5), lost(1.0, 0.5));
    assertEquals(MIDNIGHT, log.open().from());
    assertFalse(log.slotEnds(after(4).minusSeconds(1)));
    assertTrue(log.slotEnds(after(4)));
    assertTrue(log.slotEnds(after(0).minusSeconds(1)), "a clock that was set back");
    assertFalse(LossLog.EMPTY.slotEnds(after(4)), "none runs");
    LossLog next = log.plus(after(4), lost(2.0, 0.5));
    assertEquals(after(4), next.open().from());
    assertEquals(log.open(), next.closed().get(0));
  }

  @Test
  void lossesOfOneSlotAreSummed() {
    LossLog.Slot one = new LossLog.Slot(MIDNIGHT, 1.0, 2.0, 3.0, 0.25, 0.125, 10.0);
    LossLog.Slot more = new LossLog.Slot(MIDNIGHT, 0.5, 0.25, 0.5, 0.5, 0.25, 30.0);
    LossLog log = LossLog.EMPTY.plus(after(1), one).plus(after(2), more);
    assertEquals(new LossLog.Slot(MIDNIGHT, 1.5, 2.25, 3.5, 0.75, 0.375, 40.0), log.open());
    assertTrue(log.closed().isEmpty());
  }

  @Test
  void noMoreThanADayAndASlotIsKept() {
    LossLog log = slots(1, 2, 3, 4, 5, 6, 7, 8, 9, 10);
    assertEquals(7, log.closed().size());
    assertEquals(3.0, log.closed().get(0).lostG(), EXACT);
    assertEquals(10.0, log.open().lostG(), EXACT);
  }

  /** From 01:00 the day before: three quarters of the first slot, five whole ones and the open. */
  @Test
  void lostInTheDayBefore() {
    LossLog log = slots(4, 1, 2, 3, 2, 1, 5);
    assertEquals(0.75 * 4 + 9 + 5, log.lostInDayG(after(25)), EXACT);
    assertEquals(9 + 5, log.lostInDayG(after(28)), EXACT);
    assertEquals(18, log.lostInDayG(after(24)), EXACT);
    assertEquals(0.0, LossLog.EMPTY.lostInDayG(after(24)));
  }

  @Test
  void lostCountsAtMostTwiceWhatWasForetoldAndNeverBelowNothing() {
    LossLog.Slot leapt = new LossLog.Slot(MIDNIGHT, 20.0, 2.0, 20.0, 4.0, 4.0, 0.0);
    LossLog log = LossLog.EMPTY.plus(after(2), leapt).plus(after(6), leapt);
    assertEquals(8.0, log.lostInDayG(after(7)), EXACT);
    // Half of the first slot is older than a day: 2 x (1 + 2).
    assertEquals(6.0, log.lostInDayG(after(26)), EXACT);
    assertEquals(0.0, slots(-3).lostInDayG(after(3)));
  }

  /** 18 g in 24 h at 0.5 kPa; the first slot is more than a day before the last that is closed. */
  @Test
  void dayOfItsSixSlots() {
    LossLog.Day day = slots(40, 1, 2, 3, 4, 5, 3, 9).day();
    assertNotNull(day);
    assertEquals(18.0 / 12.0, day.perKpa(), EXACT);
    assertEquals(0.5, day.quietPerKpa(), EXACT);
    assertEquals(2.5, day.peakPerKpa(), EXACT);
    assertEquals(0.5, day.driveKpa(), EXACT);
    assertEquals(50.0, day.light(), EXACT);
  }

  @Test
  void dayThatGainedCountsAsOneWithoutLoss() {
    LossLog.Day day = slots(-1, -1, -1, -1, -1, -1, 0).day();
    assertEquals(0.0, day.perKpa());
    assertEquals(0.0, day.quietPerKpa());
    assertEquals(0.0, day.peakPerKpa());
  }

  /** Five slots must be known, of each three hours. */
  @ParameterizedTest(name = "two slots seen for {0} h and {1} h: a day {2}")
  @CsvSource({"3.0, 3.0, true", "2.9, 3.0, true", "2.9, 2.9, false"})
  void dayOfWhichTooLittleWasSeenIsNone(double oneH, double otherH, boolean known) {
    LossLog log = LossLog.EMPTY;
    double[] hours = {4, oneH, 4, 4, otherH, 4, 4};
    for (int slot = 0; slot < hours.length; slot++) {
      log = log.plus(after(4 * slot + 3), lost(1.0, hours[slot]));
    }
    assertEquals(known, log.day() != null);
    assertEquals(known, !Double.isNaN(log.leastExcessGPerH(0.1)));
  }

  @Test
  void dayBeginsWithTheFifthSlotThatIsClosed() {
    assertNull(LossLog.EMPTY.day());
    assertNull(slots(1, 1, 1, 1, 1).day());
    assertNotNull(slots(1, 1, 1, 1, 1, 1).day());
  }

  @Test
  void slotWithoutDryingPowerSaysNothing() {
    LossLog.Slot still = new LossLog.Slot(MIDNIGHT, 1.0, 1.0, 1.0, 4.0, 0.0, 0.0);
    LossLog log = LossLog.EMPTY;
    for (int slot = 0; slot < 7; slot++) {
      log = log.plus(after(4 * slot + 2), still);
    }
    assertNull(log.day());
    assertTrue(Double.isNaN(log.latestExcessGPerH(0.1)));
  }

  /** At 0.5 kPa, 0.5 g/h and kPa are 1 g in a slot: of 2 g, 1 g in 4 h is beyond. */
  @Test
  void excessInEverySlotOfTheDay() {
    assertEquals(0.25, slots(6, 3, 2, 4, 5, 3, 1).leastExcessGPerH(0.5), EXACT);
    assertEquals(-0.25, slots(6, 3, 0, 4, 5, 3, 1).leastExcessGPerH(0.5), EXACT);
    assertTrue(Double.isNaN(slots(6, 3, 2, 4, 5).leastExcessGPerH(0.5)));
  }

  @Test
  void excessOfTheLastTwoSlots() {
    assertEquals(0.5, slots(1, 5, 3, 9).latestExcessGPerH(0.5), EXACT);
    assertEquals(0.5, slots(1, 3, 5, 9).latestExcessGPerH(0.5), EXACT);
    assertEquals(1.0, slots(5, 7, 9).latestExcessGPerH(0.5), EXACT);
    assertTrue(Double.isNaN(slots(5, 9).latestExcessGPerH(0.5)), "one is closed");
  }

  @ParameterizedTest(name = "seen for {0} h, then for {1} h: known {2}")
  @CsvSource({"4.0, 4.0, true", "3.0, 3.0, true", "2.9, 4.0, false", "4.0, 2.9, false"})
  void excessOfTheLastTwoSlotsNeedsBoth(double oneH, double otherH, boolean known) {
    LossLog log =
        slots(1)
            .plus(after(7), lost(5.0, oneH))
            .plus(after(11), lost(5.0, otherH))
            .plus(after(15), lost(5.0, 1.0));
    assertEquals(known, !Double.isNaN(log.latestExcessGPerH(0.5)));
  }

  @Test
  void eightHoursOfDarkHoldOneSlotWholly() {
    assertEquals(Duration.ofHours(4), LossLog.SLOT);
  }
}
