package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Clocks of a cup that stays wet, dry or short of its half, at their bounds. */
class ClocksTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final CupLines LINES = new CupLines(-0.2, 0.05, 0.5, 0.75);
  private static final double ALONE = Double.NaN;

  private static Instant after(double hours) {
    return AT.plusMillis(Math.round(hours * 3_600_000.0));
  }

  /** After Blaker and MacDonald 1981 (0, 24, 48 h of flooding); the lock at 48 h is our choice. */
  @Test
  void warnsAfterADayAndHoldsAfterTwo() {
    assertEquals(24.0, WetClock.WARN_AFTER_H);
    assertEquals(48.0, WetClock.HOLD_AFTER_H);
  }

  @Test
  void pastItsWetLineTheClockRunsUntilItIsAHundredthBack() {
    WetClock wet = WetClock.DRYING.look(AT, -0.201, LINES, ALONE);
    assertEquals(AT, wet.wetSince());
    assertEquals(48.0, wet.hours(after(48)), 1e-9);
    assertEquals(AT, wet.look(after(1), -0.195, LINES, ALONE).wetSince(), "no flicker");
    assertNull(wet.look(after(1), -0.19, LINES, ALONE).wetSince());
    assertNull(WetClock.DRYING.look(AT, -0.2, LINES, ALONE).wetSince(), "at its line");
  }

  @Test
  void fullCupThatDriesByLessThanAHundredthIsSodden() {
    WetClock full = WetClock.DRYING.look(AT, 0.02, LINES, ALONE);
    assertEquals(AT, full.soddenSince());
    assertEquals(24.0, full.look(after(24), 0.029, LINES, ALONE).hours(after(24)), 1e-9);
    assertEquals(after(24), full.look(after(24), 0.031, LINES, ALONE).soddenSince());
    assertNull(full.look(after(24), 0.061, LINES, ALONE).soddenSince(), "past refill");
    assertEquals(AT, full.look(after(24), 0.03, LINES, ALONE).soddenSince());
  }

  /** Refill at capacity, as wet as that and a hundredth. */
  @Test
  void cupIsFullUpToAHundredthPastRefill() {
    CupLines atCapacity = new CupLines(-0.2, 0.0, 0.5, 0.75);
    assertEquals(AT, WetClock.DRYING.look(AT, 0.01, atCapacity, ALONE).soddenSince());
    assertNull(WetClock.DRYING.look(AT, 0.011, atCapacity, ALONE).soddenSince());
  }

  @Test
  void waterThatComesMeanwhileSetsItsMarkBack() {
    WetClock full = WetClock.DRYING.look(AT, 0.04, LINES, ALONE).look(after(1), 0.01, LINES, ALONE);
    assertEquals(AT, full.soddenSince());
    assertEquals(after(2), full.look(after(2), 0.021, LINES, ALONE).soddenSince());
  }

  /** A third of what the neighbours do, from 0.01 to 0.03. */
  @ParameterizedTest(name = "neighbours {0} a day: {1} is no drying, {2} is")
  @CsvSource({"0.0, 0.0299, 0.031", "0.045, 0.0349, 0.0351", "0.3, 0.0499, 0.0501"})
  void neighboursSayWhatDryingIs(double perDay, double still, double dries) {
    WetClock full = WetClock.DRYING.look(AT, 0.02, LINES, ALONE);
    assertEquals(AT, full.look(after(24), still, LINES, perDay).soddenSince());
    assertEquals(after(24), full.look(after(24), dries, LINES, perDay).soddenSince());
  }

  @Test
  void longerOfTheTwoCounts() {
    WetClock both = new WetClock(AT, after(5), 0.0);
    assertEquals(10.0, both.hours(after(10)), 1e-9);
    assertEquals(10.0, new WetClock(after(5), AT, 0.0).hours(after(10)), 1e-9);
    assertEquals(0.0, WetClock.DRYING.hours(AT));
  }

  @Test
  void cupThatNeitherStandsNorStoodWetKeepsItsClock() {
    assertSame(WetClock.DRYING, WetClock.DRYING.look(AT, 0.3, LINES, ALONE));
    WetClock full = WetClock.DRYING.look(AT, 0.02, LINES, ALONE);
    assertSame(full, full.look(after(1), 0.02, LINES, ALONE));
  }

  @Test
  void pastItsDryLineUntilTwoHundredthsBack() {
    assertEquals(Optional.empty(), DryClock.MOIST.after(0.75, LINES, AT).past(AT), "at its line");
    DryClock dry = DryClock.MOIST.after(0.751, LINES, AT);
    assertEquals(Optional.of(Duration.ofHours(6)), dry.past(after(6)));
    assertEquals(AT, dry.after(0.9, LINES, after(6)).pastSince(), "since the first look");
    assertEquals(AT, dry.after(0.731, LINES, after(6)).pastSince(), "wavers");
    assertEquals(AT, dry.after(0.73, LINES, after(6)).pastSince(), "just two hundredths");
    assertEquals(AT, dry.after(Double.NaN, LINES, after(6)).pastSince(), "unknown");
    assertSame(DryClock.MOIST, dry.after(0.729, LINES, after(6)));
  }

  @Test
  void halfOfTheRoomOnceInADay() {
    assertFalse(HalfRoom.NONE.begun(AT));
    HalfRoom half = new HalfRoom(AT, 50.0);
    assertTrue(half.begun(AT));
    assertTrue(half.begun(after(24).minusMillis(1)));
    assertFalse(half.begun(after(24)));
  }
}
