package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a look knows before its reading is judged: passes that are awaited for half an hour. */
class LookTest {
  private final Cups cup = new Cups();

  private Look in(double minutes) {
    CupReading reading = CupReading.of(cup.now.plusSeconds(Math.round(60 * minutes)), 300);
    return new Look(cup.state, Cups.TALL, reading);
  }

  /** Ten days for 271.754 mL. */
  @Test
  void guessOfACupOfWhichNothingIsKnown() {
    assertEquals(1.13231, in(0).guessGPerH(), 1e-5);
    assertEquals(0, in(0).hoursUnread);
    assertTrue(Double.isNaN(in(0).lastReadG));
    assertFalse(in(0).awaitedOpen());
    assertFalse(in(0).firstAfterOrder());
  }

  @Test
  void timeAndWeightOfTheLastReading() {
    cup.reads(300);
    assertEquals(0.5, in(30).hoursUnread);
    assertEquals(300, in(30).lastReadG);
  }

  /** However late, the first reading after an order is the first look at it. */
  @Test
  void passThatNoReadingFollowedIsAwaited() {
    cup.reads(300);
    cup.look(5, Double.NaN, 30, true);
    assertTrue(in(500).awaitedOpen());
    assertTrue(in(500).firstAfterOrder());
    assertEquals(30, in(500).awaitedMl);
  }

  @ParameterizedTest(name = "{0} min after it was ordered: {1}")
  @CsvSource({"30, true", "31, false"})
  void passThatDidNotShowIsAwaitedForHalfAnHour(double minutes, boolean open) {
    cup.reads(300);
    cup.look(5, Double.NaN, 30, true);
    cup.looks(1, 300);
    Look look = in(minutes - 1);
    assertEquals(open, look.awaitedOpen());
    assertFalse(look.firstAfterOrder());
  }

  @Test
  void orderOfThisLookIsAddedToWhatIsAwaited() {
    cup.reads(300);
    cup.look(5, Double.NaN, 30, true);
    cup.look(5, Double.NaN, 15, true);
    assertEquals(45, in(1).awaitedMl);
    cup.looks(1, 300);
    cup.looks(60, 300);
    cup.look(5, Double.NaN, 20, true);
    assertEquals(20, in(1).awaitedMl, "the others are given up");
  }

  private static Look after(StillCup cup, double minutes, LightKnown light) {
    CupReading reading =
        new CupReading(
            Cups.START.plusSeconds(Math.round(60 * minutes)),
            300,
            0,
            Double.NaN,
            Double.NaN,
            light,
            false);
    return new Look(cup.state(), StillCup.FRAME, reading);
  }

  /** Of which its answer to light is known, in the dark so far, and the hours of its days. */
  private static StillCup learned(DayProfile day) {
    StillCup cup = new StillCup();
    cup.day = day;
    // draws = (6 x 10 - 8 x 4) / (10 x 3 - 4²) = 2, rests = max(2 / 20, 0): in the dark 0.1.
    cup.byLight = new LightUse(10, 4, 3, 8, 6, 0);
    return cup;
  }

  private static DayProfile tripledAtEight() {
    List<Double> perKpa = new ArrayList<>(Collections.nCopies(24, 1.0));
    perKpa.set(8, 3.0);
    List<Double> air = Collections.nCopies(24, 1.0);
    return new DayProfile(perKpa, air, 0, 48, 0, 0, 0, 0, DayProfile.Hour.NONE);
  }

  /** (0.1 + 2 x 0.5) / 0.1 at 80 µmol/m²/s; (0.1 + 2 x 100 / 180) / 0.1 for a lamp. */
  @Test
  void rateFollowsTheSensorElseTheHoursOfItsDaysElseTheLamp() {
    StillCup days = learned(tripledAtEight());
    LightKnown clock = new LightKnown(Double.NaN, Double.NaN, 8.05);
    assertEquals(3, after(days, 6, clock).change, 1e-12, "six minutes ago it was 07:57");
    assertEquals(3, after(days, 6, clock.byLamp(true)).change, 1e-12);
    assertEquals(11, after(days, 6, new LightKnown(80, 0, 8.05)).change, 1e-12);
    LightKnown noClock = new LightKnown(Double.NaN, Double.NaN, Double.NaN);
    double byLamp = (0.1 + 2 * 100 / 180.0) / 0.1;
    assertEquals(byLamp, after(days, 6, noClock.byLamp(true)).change, 1e-12);
    StillCup young = learned(DayProfile.NONE);
    assertEquals(byLamp, after(young, 6, clock.byLamp(true)).change, 1e-12);
    assertEquals(1, after(young, 6, clock).change);
  }

  /**
   * Half way from the knee at 256 g to the end at 160 g, at 4.8 g/h: an hour on it holds 43.2 of
   * the 48 g left, and loses 0.9 of that.
   */
  @Test
  void rateFallsAsTheCupDries() {
    StillCup cup = new StillCup();
    cup.filter = StillCup.weighs(208, 4.8);
    assertEquals(4.32, after(cup, 60, LightKnown.NOTHING).filter.rateGPerH(), 1e-9);
  }

  /** 0.05 g/°C on a scale that is 4 °C warmer than where it is taken to be right. */
  @Test
  void readingIsCorrectedForTheWarmthOfItsScale() {
    StillCup cup = new StillCup();
    cup.filter = new LoadFilter(Cups.START, 320, 0, 0.05, 0, 0, 0, 0, 0, 0);
    cup.weather = new Weather(1, 24);
    assertEquals(299.8, after(cup, 5, LightKnown.NOTHING).correctedG(), 1e-9);
    assertEquals(319.8, cup.state().readingG(), 1e-9);
    cup.filter = null;
    assertEquals(300, after(cup, 5, LightKnown.NOTHING).correctedG());
  }
}
