package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A cup that usually loses 1 g/h in air of 0.5 kPa, 0.5 g/h in its quietest and 2 g/h in its
 * busiest four hours. By a variance of 0.15² more than 2.5 x 0.15 = 0.375 of that is not how it
 * varies: 0.1875 g/h in the quiet hours, 0.75 g/h in the busy ones. All figures are our choice.
 */
class WatchDriftTest {
  private static final double EXACT = 1e-9;
  private static final double AVAILABLE_ML = 200.0;
  private static final Instant MIDNIGHT = Instant.parse("2027-02-14T00:00:00Z");

  /** The end of six slots. */
  private static final Instant AT = after(24);

  private static final UsualUse USUAL = usual(MIDNIGHT, 2.0, 1.0, 4.0);
  private static final WatchDrift.Neighbours ALONE =
      new WatchDrift.Neighbours(Double.NaN, Double.NaN);

  private static Instant after(double hours) {
    return MIDNIGHT.plusSeconds(Math.round(hours * 3600.0));
  }

  private static UsualUse usual(Instant at, double perKpa, double quiet, double peak) {
    return new UsualUse(at, 5, perKpa, quiet, 0.15 * 0.15, 0.0, peak, 100.0);
  }

  private static LossLog.Slot slot(double gPerH, double driveKpa, double light) {
    double g = 4.0 * gPerH;
    return new LossLog.Slot(MIDNIGHT, g, g, g, 4.0, 4.0 * driveKpa, 4.0 * light);
  }

  private static LossLog log(double driveKpa, double light, double... gPerH) {
    LossLog log = LossLog.EMPTY;
    for (int i = 0; i < gPerH.length; i++) {
      log = log.plus(after(4 * i + 2), slot(gPerH[i], driveKpa, light));
    }
    return log.plus(after(4 * gPerH.length), slot(0.0, driveKpa, light));
  }

  private static WaterAccount account(LossLog log, UsualUse usual, ScaleDrift drift) {
    WaterAccount none = WaterAccount.NONE;
    return new WaterAccount(
        AT, 300.0, log, usual, 1.0, none.full(), none.half(), none.rises(), drift);
  }

  /** A cup whose slots lost so much, each in air of 0.5 kPa and a light of 100. */
  private static WaterAccount cup(double... gPerH) {
    return account(log(0.5, 100.0, gPerH), USUAL, ScaleDrift.NONE);
  }

  private static WaterAccount judged(WaterAccount was) {
    return WatchDrift.slotOver(was, AT, ALONE, AVAILABLE_ML);
  }

  private static void assertDrift(
      Instant since,
      double unexplainedG,
      double seen,
      double foretold,
      double most,
      ScaleDrift is) {
    assertEquals(since, is.since());
    assertEquals(unexplainedG, is.unexplainedG(), EXACT, "unexplained");
    assertEquals(seen, is.seenGPerH(), EXACT, "seen");
    assertEquals(foretold, is.foretoldGPerH(), EXACT, "foretold");
    assertEquals(most, is.mostPart(), EXACT, "most");
  }

  @Test
  void ordinaryDayIsLearned() {
    WaterAccount now = judged(cup(0.55, 1.0, 1.0, 1.0, 1.0, 1.45));
    UsualUse learned = now.usual();
    assertEquals(ScaleDrift.NONE, now.drift());
    assertEquals(6, learned.days());
    assertEquals(AT, learned.at());
    assertEquals(2.0, learned.perKpa(), EXACT);
    assertEquals(1.02, learned.quietPerKpa(), EXACT, "a fifth of the way from 1.0 to 1.1");
    // 0.05 g/h are 0.1 of 0.5 g/h: 0.0225 + 0.2 (0.01 - 0.0225).
    assertEquals(0.02, learned.quietVar(), EXACT);
  }

  @Test
  void dayIsLearnedOnceInADay() {
    WaterAccount tooSoon =
        account(
            log(0.5, 100.0, 0.55, 1.0, 1.0, 1.0, 1.0, 1.45),
            usual(after(0).plusMillis(1), 2.0, 1.0, 4.0),
            ScaleDrift.NONE);
    assertEquals(tooSoon, judged(tooSoon));
  }

  @Test
  void firstDaysAreTakenAsTheyAre() {
    LossLog log = log(0.5, 100.0, 0.5, 1.0, 1.0, 1.0, 1.0, 1.5);
    UsualUse first = judged(account(log, UsualUse.UNKNOWN, ScaleDrift.NONE)).usual();
    assertEquals(1, first.days());
    assertEquals(2.0, first.perKpa(), EXACT);
    assertEquals(1.0, first.quietPerKpa(), EXACT);
    assertEquals(3.0, first.peakPerKpa(), EXACT);
    WaterAccount tooSoon =
        account(log, new UsualUse(after(1), 1, 2, 1, 0.0225, 0, 3, 100), ScaleDrift.NONE);
    assertSame(tooSoon, judged(tooSoon));
  }

  @Test
  void dayOfWhichTooLittleWasSeenSaysNothing() {
    WaterAccount known = cup(0.7, 0.7, 0.7);
    assertSame(known, judged(known));
    WaterAccount unknown = account(log(0.5, 100, 9.0, 9.0), UsualUse.UNKNOWN, ScaleDrift.NONE);
    assertSame(unknown, judged(unknown));
  }

  @Test
  void quietUseOfNothingIsNoMeasureOfHowItVaries() {
    UsualUse still = usual(MIDNIGHT, 2.0, 0.0, 4.0);
    LossLog log = log(0.5, 100.0, 0.05, 1.0, 1.0, 1.0, 1.0, 1.0);
    UsualUse learned = judged(account(log, still, ScaleDrift.NONE)).usual();
    assertEquals(6, learned.days());
    assertEquals(0.0225, learned.quietVar(), EXACT);
  }

  /** By 0.19 g/h of 0.5 in each slot of the day. */
  @Test
  void excessInEverySlotIsLaidUp() {
    WaterAccount now = judged(cup(1.0, 1.0, 0.69, 1.0, 1.0, 1.0));
    assertDrift(MIDNIGHT, 0.19 * 24, 0.69, 0.5, 0.38, now.drift());
    assertEquals(USUAL, now.usual(), "such a day is not learned");
    assertNull(judged(cup(1.0, 1.0, 0.6875, 1.0, 1.0, 1.0)).drift().since(), "so it varies");
  }

  @ParameterizedTest(name = "neighbours'' quiet hours {0} times: {1} g/h of {2} foretold")
  @CsvSource({
    // 0.5 x 1.2 = 0.6: 0.19 g/h beyond, 0.69 / 0.5 would have been.
    "1.2, 0.79, 0.6",
    // Neighbours that rest are no reason to expect less.
    "0.5, 0.69, 0.5"
  })
  void whatNeighboursLoseInQuietHoursIsForetold(double times, double gPerH, double foretold) {
    var others = new WatchDrift.Neighbours(1.0, times);
    ScaleDrift drift =
        WatchDrift.slotOver(cup(1, 1, gPerH, 1, 1, 1), AT, others, AVAILABLE_ML).drift();
    assertDrift(MIDNIGHT, 0.19 * 24, gPerH, foretold, gPerH / foretold - 1.0, drift);
    double less = gPerH - 0.01;
    WaterAccount varies = WatchDrift.slotOver(cup(1, 1, less, 1, 1, 1), AT, others, AVAILABLE_ML);
    assertNull(varies.drift().since());
  }

  /** Half of 0.1875 g/h keep it up: 0.1 g/h for four hours more. */
  @ParameterizedTest(name = "{0} g/h: {1} g unexplained, most {2}")
  @CsvSource({"0.60, 5.2, 0.4", "0.80, 6.0, 0.6"})
  void whatIsSuspectedGoesOnAtHalfOfThat(double gPerH, double unexplainedG, double most) {
    ScaleDrift suspected = ScaleDrift.suspected(after(-4), 4.8, 0.7, 0.5).atLeast(0.4);
    LossLog log = log(0.5, 100.0, 1.0, 1.0, gPerH, 1.0, 1.0, 1.0);
    WaterAccount now = judged(account(log, USUAL, suspected));
    assertDrift(after(-4), unexplainedG, gPerH, 0.5, most, now.drift());
    assertEquals(USUAL, now.usual());
  }

  @Test
  void whatComesBackByItselfIsHowTheCupVaries() {
    ScaleDrift suspected = ScaleDrift.suspected(after(-4), 4.8, 0.7, 0.5).atLeast(0.4);
    LossLog log = log(0.5, 100.0, 1.0, 1.0, 0.59375, 1.0, 1.0, 1.0);
    WaterAccount now = judged(account(log, usual(after(1), 2.0, 1.0, 4.0), suspected));
    assertEquals(ScaleDrift.NONE, now.drift());
    assertEquals(0.4, now.usual().quietMost(), EXACT);
  }

  /** By 0.76 g/h beyond 2 g/h for eight hours, the quiet hours being as ever. */
  @Test
  void eightHoursBeyondTheBusiestAreLaidUp() {
    WaterAccount now = judged(cup(0.5, 1.0, 1.0, 1.0, 2.76, 2.76));
    assertDrift(after(16), 0.76 * 8, 2.76, 2.0, 0.0, now.drift());
    assertNull(judged(cup(0.5, 1.0, 1.0, 1.0, 2.75, 2.76)).drift().since(), "how it varies");
    assertNull(judged(cup(0.5, 1.0, 1.0, 1.0, 2.76, 2.75)).drift().since(), "in each of both");
  }

  @Test
  void eightHoursBeyondTheBusiestGoOn() {
    ScaleDrift suspected = ScaleDrift.suspected(after(-4), 4.8, 0.7, 0.5).atLeast(0.4);
    LossLog log = log(0.5, 100.0, 0.5, 1.0, 1.0, 1.0, 2.8, 2.8);
    ScaleDrift drift = judged(account(log, USUAL, suspected)).drift();
    assertDrift(after(-4), 4.8 + 0.8 * 4, 2.8, 2.0, 0.4, drift);
  }

  /** A light of 20 is added to both sides: 220 to 100 are 240 to 120. */
  @ParameterizedTest(name = "light {0}, neighbours {1}: {2} times")
  @CsvSource({
    "100, NaN, 1.0",
    "220, NaN, 2.0",
    "1000, NaN, 4.0",
    "40, NaN, 1.0",
    "NaN, NaN, 1.0",
    "100, 1.5, 1.5",
    "100, 0.5, 1.0",
    "220, 1.5, 2.0",
    "220, 3.0, 3.0"
  })
  void moreIsForetoldByLightOrNeighbours(double light, double use, double more) {
    LossLog log = log(0.5, light, 0.5, 1.0, 1.0, 1.0, 1.0, 1.0);
    WaterAccount now =
        WatchDrift.slotOver(
            account(log, USUAL, ScaleDrift.NONE),
            AT,
            new WatchDrift.Neighbours(use, Double.NaN),
            AVAILABLE_ML);
    assertEquals(more, now.more(), EXACT);
  }

  @Test
  void busierInMoreLightIsNoDrift() {
    LossLog log = log(0.5, 220.0, 0.5, 1.0, 1.0, 1.0, 2.8, 2.8);
    assertNull(judged(account(log, USUAL, ScaleDrift.NONE)).drift().since());
  }

  /** In 1 kPa: three times the busiest are 6 g/h; 8 g/h are 7 beyond the mean, 56 g in 8 h. */
  @ParameterizedTest(name = "{0} and {1} g/h, {2} mL available: {3} g")
  @CsvSource({
    "8, 8, 200, 56",
    "6.01, 8, 200, 40.08",
    "6, 8, 200, 0",
    "8, 6, 200, 0",
    // A tenth of the available water matters.
    "8, 8, 560, 56",
    "8, 8, 561, 0"
  })
  void leapIsNotWaitedForUntilADayIsOver(
      double oneGPerH, double otherGPerH, double availableMl, double unexplainedG) {
    UsualUse usual = usual(MIDNIGHT, 1.0, 0.5, 2.0);
    WaterAccount was = account(log(1.0, 100.0, oneGPerH, otherGPerH), usual, ScaleDrift.NONE);
    WaterAccount now = WatchDrift.slotOver(was, after(8), ALONE, availableMl);
    if (unexplainedG == 0.0) {
      assertSame(was, now);
    } else {
      double seen = Math.min(oneGPerH, otherGPerH);
      assertDrift(MIDNIGHT, unexplainedG, seen, 1.0, 0.0, now.drift());
    }
  }

  /** Three times 0.4 are 1.2 g/h; a gram beyond a mean of 0.25 g/h are 1.25 g/h. */
  @Test
  void leapOfLessThanAGramAnHourIsNone() {
    UsualUse frugal = usual(MIDNIGHT, 0.25, 0.1, 0.4);
    WaterAccount little = account(log(1.0, 100.0, 1.24, 1.24), frugal, ScaleDrift.NONE);
    assertSame(little, WatchDrift.slotOver(little, after(8), ALONE, 50.0));
    WaterAccount more = account(log(1.0, 100.0, 1.25, 1.25), frugal, ScaleDrift.NONE);
    ScaleDrift drift = WatchDrift.slotOver(more, after(8), ALONE, 50.0).drift();
    assertEquals(8.0, drift.unexplainedG(), EXACT);
  }

  @Test
  void leapOfACupThatIsSuspectedIsNoneOfItsOwn() {
    ScaleDrift suspected = ScaleDrift.suspected(after(-4), 4.8, 0.7, 0.5);
    UsualUse usual = usual(MIDNIGHT, 1.0, 0.5, 2.0);
    WaterAccount was = account(log(1.0, 100.0, 8, 8), usual, suspected);
    assertSame(was, WatchDrift.slotOver(was, after(8), ALONE, AVAILABLE_ML));
  }

  /**
   * Two slots of 0.05 kPa after four of 1.475 kPa: 1.5 g/h are within what a cup with a peak of 5
   * g/h and kPa varies by in the day's mean of 1 kPa, yet three times what that air lets it lose.
   */
  @ParameterizedTest(name = "neighbours {0}, {1} mL available: {2} g")
  @CsvSource({
    // 8 h of 1.5 - 0.05 g/h.
    "1.0, 110, 11.6",
    "1.0, 120, 0",
    // 8 h of 1.5 - 1.5 x 0.05 g/h.
    "1.5, 110, 11.4",
    // Three times 2 x 5 x 0.05 are 1.5 g/h.
    "2.0, 110, 0"
  })
  void leapInAirThatHardlyDries(double use, double availableMl, double unexplainedG) {
    LossLog log = LossLog.EMPTY;
    for (int i = 0; i < 6; i++) {
      boolean still = i >= 4;
      log = log.plus(after(4 * i + 2), slot(still ? 1.5 : 0.7375, still ? 0.05 : 1.475, 100));
    }
    log = log.plus(AT, slot(0, 1, 100));
    UsualUse leafy = usual(after(1), 1.0, 0.5, 5.0);
    var others = new WatchDrift.Neighbours(use, Double.NaN);
    ScaleDrift drift =
        WatchDrift.slotOver(account(log, leafy, ScaleDrift.NONE), AT, others, availableMl).drift();
    assertEquals(unexplainedG, drift.unexplainedG(), EXACT);
    assertEquals(unexplainedG > 0.0 ? after(16) : null, drift.since());
    if (unexplainedG > 0.0) {
      assertEquals(use * 0.05, drift.foretoldGPerH(), EXACT, "1 g/h and kPa in 0.05 kPa");
      assertEquals(1.5, drift.seenGPerH(), EXACT);
    }
  }

  /** Of 200 mL available 20 g matter; 5 mL are the least pass. */
  @ParameterizedTest(name = "{0} g, {1} of {2} g/h, wants {3}, {4} mL of room: {5}")
  @CsvSource({
    // Use has doubled.
    "20.0, 1.0, 0.5, false, 50, true",
    "19.9, 1.0, 0.5, false, 50, false",
    "20.0, 0.99, 0.5, false, 50, false",
    // By 0.3 g/h at least: 0.5 is 0.25 twice over.
    "20.0, 0.5, 0.125, false, 50, true",
    "20.0, 0.375, 0.125, false, 50, false",
    // It asks for water that it has no room for.
    "20.0, 0.75, 0.5, true, 4.9, true",
    "20.0, 0.75, 0.5, true, 5.0, false",
    "20.0, 0.75, 0.5, false, 4.9, false",
    "19.9, 0.75, 0.5, true, 4.9, false"
  })
  void doubted(
      double unexplainedG,
      double seen,
      double foretold,
      boolean wants,
      double roomMl,
      boolean doubted) {
    ScaleDrift drift = ScaleDrift.suspected(AT, unexplainedG, seen, foretold);
    assertEquals(doubted, WatchDrift.doubts(drift, wants, roomMl, 5.0, AVAILABLE_ML));
    assertEquals(false, WatchDrift.doubts(drift.tell(AT, 300), wants, roomMl, 5.0, AVAILABLE_ML));
  }

  @Test
  void leastDoublingThatMattersIsThreeTenthsOfAGramAnHour() {
    ScaleDrift least = ScaleDrift.suspected(AT, 20.0, 0.3, 0.0);
    assertEquals(true, WatchDrift.doubts(least, false, 50.0, 5.0, AVAILABLE_ML));
    ScaleDrift less = ScaleDrift.suspected(AT, 20.0, 0.29, 0.0);
    assertEquals(false, WatchDrift.doubts(less, false, 50.0, 5.0, AVAILABLE_ML));
  }

  @Test
  void cupOfWhichNothingIsSuspectedIsNotDoubted() {
    assertEquals(false, WatchDrift.doubts(ScaleDrift.NONE, true, 0.0, 5.0, AVAILABLE_ML));
    ScaleDrift none = new ScaleDrift(null, 20.0, 0.0, null, 1.0, 0.5, Double.NaN);
    assertEquals(false, WatchDrift.doubts(none, true, 0.0, 5.0, AVAILABLE_ML));
  }
}
