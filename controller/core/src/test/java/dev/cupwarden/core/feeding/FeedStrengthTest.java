package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The least of what a stage may have, by strength and by nitrogen, and of what else caps it. */
class FeedStrengthTest {
  private static final Instant SEEN = Instant.parse("2027-02-01T08:00:00Z");
  private static final FeedStrength THIRD = FeedStrength.of(new StageFeed(0.33, 100.0), 200.0);

  @Test
  @Outside(source = "watered twice as often as the label says: half strength (common practice)")
  void halfStrengthWhereWateredTwiceInAnInterval() {
    assertEquals(0.5, FeedStrength.spread(1.0, 7.0, 14.0, 1.0), 1e-12);
  }

  @ParameterizedTest(name = "T {0}, d {1}, D {2}, v {3}: {4}")
  @CsvSource({
    "1.0, 14, 14, 1.0, 1.0",
    "1.0, 3.5, 14, 1.0, 0.25",
    "0.5, 7, 14, 1.0, 0.25",
    "1.0, 7, 28, 1.0, 0.25",
    "1.0, 7, 14, 0.5, 1.0",
    "0.5, 4, 14, 0.45, 0.31746031746",
    "0.0, 7, 14, 1.0, 0.0"
  })
  void labelsAllowanceSpreadOverTheWaterings(
      double target, double everyDays, double intervalDays, double part, double strength) {
    assertEquals(strength, FeedStrength.spread(target, everyDays, intervalDays, part), 1e-9);
  }

  /**
   * 0.25 and 75 mg/L in the first interval, 0.33 and 100 from the third on; circling 0.33 to 0.5.
   */
  @ParameterizedTest(name = "{0} after {1} d: {2} of the label, {3} mg/L N")
  @CsvSource({
    "TOUGHENED, -3, 0.2475, 75",
    "TOUGHENED, 0, 0.2475, 75",
    "TOUGHENED, 14, 0.2475, 75",
    "TOUGHENED, 21, 0.28875, 87.5",
    "TOUGHENED, 28, 0.33, 100",
    "TOUGHENED, 90, 0.33, 100",
    "CIRCLING, 0, 0.33333333, 100",
    "CIRCLING, 21, 0.41666667, 125",
    "CIRCLING, 28, 0.5, 150",
    "WHITE, 28, 0.0, 0",
    "STRUCK, 28, 0.0, 0"
  })
  void stageRisesOverItsSecondInterval(
      RootStage stage, long days, double strength, double nMgPerL) {
    Instant at = SEEN.plus(Duration.ofDays(days));
    StageFeed found = StageFeed.at(FeedingRules.USUAL, stage, SEEN, at, Duration.ofDays(14));
    assertEquals(strength, found.strength(), 1e-8);
    assertEquals(nMgPerL, found.mostNMgPerL(), 1e-9);
  }

  /**
   * Of a rich feed the nitrogen counts, of a weak one the label; one without any has no such cap.
   */
  @ParameterizedTest(name = "{0} mg/L N at the label: {1} by {2}")
  @CsvSource({"400, 0.25, MOST_N", "303, 0.33, STAGE", "200, 0.33, STAGE", "0, 0.33, STAGE"})
  void lesserOfStrengthAndNitrogen(double labelNMgPerL, double strength, FeedStrength.Cap by) {
    FeedStrength found = FeedStrength.of(new StageFeed(0.33, 100.0), labelNMgPerL);
    assertEquals(strength, found.strength(), 1e-12);
    assertEquals(by, found.by());
  }

  /** A third of 400 mg/L N would be 132, of which 100 are the most. */
  @Test
  void tooMuchNitrogenIsToldInItsOwnUnit() {
    FeedStrength rich = FeedStrength.of(new StageFeed(0.33, 100.0), 400.0);
    assertEquals(132.0, rich.value(), 1e-9);
    assertEquals(100.0, rich.threshold());
    assertEquals(0.0, StageFeed.NONE.ofLabel(0.0), "none of a feed without nitrogen");
  }

  /** As messages carry them. */
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "STAGE, stage, label",
    "MOST_N, most-n, mg/L N",
    "LABEL, label, label",
    "STOCK, stock, mg/L N",
    "COOL, cool, C",
    "SALT, salt, mS/cm",
    "FLOOR, floor, label"
  })
  void wordAndUnitOfEachCap(FeedStrength.Cap cap, String word, String unit) {
    assertEquals(word, cap.word());
    assertEquals(unit, cap.unit());
  }

  @Test
  void leastCountsAndTellsWhatItIs() {
    assertSame(THIRD, THIRD.lesser(FeedStrength.Cap.LABEL, 0.33, 1.0, 2.0));
    FeedStrength less = THIRD.lesser(FeedStrength.Cap.LABEL, 0.2, 1.0, 2.0);
    assertEquals(new FeedStrength(0.2, FeedStrength.Cap.LABEL, 1.0, 2.0), less);
    assertSame(less, less.lesser(FeedStrength.Cap.COOL, 0.21, 3.0, 4.0));
  }

  /** Kept up to 0.05, but where there is to be none; and never beyond what the stage may have. */
  @ParameterizedTest(name = "{0} by {1}, of {2}: {3}")
  @CsvSource({
    "0.20, STOCK, 0.33, 0.20",
    "0.04, STOCK, 0.33, 0.05",
    "0.00, STOCK, 0.33, 0.05",
    "0.04, STOCK, 0.03, 0.04",
    "0.01, STOCK, 0.03, 0.03",
    "0.01, COOL, 0.33, 0.05",
    "0.00, COOL, 0.33, 0.00",
    "0.01, SALT, 0.33, 0.05",
    "0.00, SALT, 0.33, 0.00",
    "0.00, LABEL, 0.33, 0.00"
  })
  void everyFedWateringCarriesTheFloor(
      double strength, FeedStrength.Cap by, double own, double kept) {
    FeedStrength found = new FeedStrength(strength, by, 0.0, 0.0).atLeast(0.05, own);
    assertEquals(kept, found.strength(), 1e-12);
  }

  @Test
  void feedOfJustTheFloorWasNotKeptUpByIt() {
    FeedStrength just = new FeedStrength(0.05, FeedStrength.Cap.SALT, 2.5, 2.6);
    assertSame(just, just.atLeast(0.05, 0.33));
  }

  @ParameterizedTest(name = "roots at {0} °C, cold below {1} °C: {2}")
  @CsvSource({
    "20, 12, 1.0",
    "18, 12, 1.0",
    "15, 12, 0.5",
    "13.5, 12, 0.25",
    "12, 12, 0.0",
    "9, 12, 0.0",
    "NaN, 12, 1.0",
    "15, 18, 1.0",
    "16, 14, 0.5"
  })
  void coolRootsTakeLess(double rootC, double coldC, double part) {
    assertEquals(part, FeedStrength.coolRootsPart(rootC, coldC), 1e-12);
  }
}
