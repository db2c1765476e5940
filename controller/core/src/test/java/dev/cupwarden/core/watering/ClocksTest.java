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

/** Clocks of a cup that stays wet, dry or short of its half, at their bounds. */
class ClocksTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final CupLines LINES = new CupLines(-0.2, 0.05, 0.5, 0.75);

  private static Instant after(double hours) {
    return AT.plusMillis(Math.round(hours * 3_600_000.0));
  }

  /**
   * Blaker and MacDonald 1981, abstract: 48 h of flooding; a warning at half of it is our choice.
   */
  @Test
  void warnsAfterADayAndHoldsAfterTwo() {
    assertEquals(24.0, WetClock.WARN_AFTER_H);
    assertEquals(48.0, WetClock.HOLD_AFTER_H);
  }

  @Test
  void pastItsWetLineTheClockRunsUntilItIsAHundredthBack() {
    WetClock wet = WetClock.DRYING.look(AT, -0.201, LINES);
    assertEquals(AT, wet.wetSince());
    assertEquals(48.0, wet.hours(after(48)), 1e-9);
    assertEquals(AT, wet.look(after(1), -0.195, LINES).wetSince(), "no flicker");
    assertNull(wet.look(after(1), -0.19, LINES).wetSince());
    assertNull(WetClock.DRYING.look(AT, -0.2, LINES).wetSince(), "at its line");
  }

  /** From 0.1 to 0.2 at 0.005 an hour it needs 20 h. */
  @Test
  void littleAirCountsBeyondWhatTheCupNeedsAtItsOwnRate() {
    WetClock little = air(WetClock.DRYING, 0, 0.1, 0.005);
    assertEquals(20.0, little.needH(), 1e-9);
    assertEquals(0.0, little.hours(after(20)), 1e-9);
    assertEquals(48.0, little.hours(after(68)), 1e-9);
    assertEquals(WetClock.DRYING, air(WetClock.DRYING, 0, 0.2, 0.005), "at the line");
  }

  @Test
  void rateThatFallsMeanwhileMakesItsNeedNoLonger() {
    WetClock little = air(WetClock.DRYING, 0, 0.1, 0.005);
    assertSame(little, air(little, 24, 0.15, 0.0001));
    assertSame(little, air(little, 24, 0.0901, 0.0001), "no wetter than before, but for noise");
    WetClock wettest = air(WetClock.DRYING, 0, 0.0, 0.005);
    assertSame(wettest, air(wettest, 24, -0.01, 0.0001), "just a hundredth wetter");
    assertEquals(720.0, air(wettest, 24, -0.0101, 0.0001).needH(), "more than that is water");
  }

  /** Twice as much to dry, and the time of before counts all the same. */
  @Test
  void waterThatComesMeanwhileLengthensItsNeedAndNotMore() {
    WetClock wetter = air(air(WetClock.DRYING, 0, 0.1, 0.005), 30, 0.0, 0.005);
    assertEquals(40.0, wetter.needH(), 1e-9);
    assertEquals(24.0, wetter.hours(after(64)), 1e-9);
  }

  @Test
  void airIsEnoughAHundredthPastTheLine() {
    WetClock little = air(WetClock.DRYING, 0, 0.1, 0.005);
    assertSame(little, air(little, 24, 0.209, 0.005));
    assertEquals(WetClock.DRYING, air(little, 24, 0.2101, 0.005));
  }

  @Test
  void cupThatHardlyDriesIsLookedAtAfterAMonth() {
    assertEquals(720.0, air(WetClock.DRYING, 0, 0.1, 1e-6).needH());
    assertEquals(720.0, air(WetClock.DRYING, 0, 0.1, 0.0).needH());
    assertEquals(720.0, air(WetClock.DRYING, 0, 0.1, -1.0).needH());
  }

  private static WetClock air(WetClock clock, double hours, double depletion, double dryingPerH) {
    return clock.lookAtAir(after(hours), depletion, 0.2, dryingPerH);
  }

  @Test
  void longerOfTheTwoCounts() {
    assertEquals(10.0, new WetClock(AT, after(5), 0.0, 0.0).hours(after(10)), 1e-9);
    assertEquals(10.0, new WetClock(after(5), AT, 0.0, 0.0).hours(after(10)), 1e-9);
    assertEquals(0.0, WetClock.DRYING.hours(AT));
  }

  @Test
  void cupThatNeitherStandsNorStoodWetKeepsItsClock() {
    assertSame(WetClock.DRYING, WetClock.DRYING.look(AT, 0.3, LINES));
    assertSame(WetClock.DRYING, WetClock.DRYING.withAir());
    WetClock wet = WetClock.DRYING.look(AT, -0.3, LINES);
    assertSame(wet, wet.look(after(1), -0.3, LINES));
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
