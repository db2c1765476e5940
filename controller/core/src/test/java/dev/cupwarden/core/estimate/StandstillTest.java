package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How long a scale may show one weight to the last bit. */
class StandstillTest {
  private static Instant after(double minutes) {
    return Cups.START.plusMillis(Math.round(60_000 * minutes));
  }

  private static Standstill shown(int looks, double stepG, double lossG, double noiseG) {
    return new Standstill(320, Cups.START, looks, true, stepG, 1, lossG, noiseG);
  }

  private static CupReading again(double massG, boolean neighboursMoved) {
    return new CupReading(after(5), massG, 0, Double.NaN, Double.NaN, Double.NaN, neighboursMoved);
  }

  /** 1.2 g/h that light makes 1.8, for half an hour, beside the 0.4 g of before. */
  @Test
  void expectedLossIsSummedWhileNothingChanges() {
    Standstill was = new Standstill(320, Cups.START, 3, false, 0.1, 1.2, 0.4, 0.2);
    assertEquals(
        new Standstill(320, Cups.START, 4, false, 0.1, 1.8, 1.3, 0.2),
        rounded(was.next(again(320, false), 9, 1.5, 0.5, 0.3)));
    assertTrue(was.next(again(320, true), 9, 1.5, 0.5, 0.3).neighboursMoved());
    assertEquals(
        new Standstill(319.9, after(5), 1, false, 0.1, 9, 0, 0.3),
        was.next(again(319.9, true), 9, 1.5, 0.5, 0.3));
  }

  private static Standstill rounded(Standstill one) {
    return new Standstill(
        one.massG(),
        one.since(),
        one.looks(),
        one.neighboursMoved(),
        one.stepG(),
        Math.rint(one.rateGPerH() * 1e9) / 1e9,
        Math.rint(one.lossG() * 1e9) / 1e9,
        one.noiseG());
  }

  /** A rate of nothing is known; of an unknown one nothing is expected. */
  @Test
  void cupThatLosesNothingIsNoUnknownOne() {
    Standstill still = new Standstill(320, Cups.START, 3, false, 0.1, 0, 0, 0.2);
    assertEquals(0, still.next(again(320, false), 9, 1.5, 0.5, 0.3).rateGPerH());
    Standstill unknown = new Standstill(320, Cups.START, 3, false, 0.1, -1, 0, 0.2);
    assertEquals(-1, unknown.next(again(320, false), 9, 1.5, 0.5, 0.3).rateGPerH());
    assertEquals(0, unknown.next(again(320, false), 9, 1.5, 0.5, 0.3).lossG());
  }

  /** On a display of thousandths four equal readings are luck of less than one in a million. */
  @ParameterizedTest(name = "{0} looks in {1} min: stuck {2}")
  @CsvSource({"4, 45, true", "4, 44.9, false", "3, 45, false", "3, 10000, false"})
  void takesFourLooksAndThreeQuartersOfAnHour(int looks, double minutes, boolean stuck) {
    assertEquals(stuck, shown(looks, 0.001, 0, 0.1).stuck(after(minutes)));
    Standstill alone = new Standstill(320, Cups.START, looks, false, 0.001, 1, 0, 0.1);
    assertFalse(alone.stuck(after(minutes)), "no other scale moved");
  }

  /** On a display of whole grams that loses nothing, equal readings are no luck at all. */
  @ParameterizedTest(name = "{0} min: {1}")
  @CsvSource({"2879.9, false", "2880, true"})
  void nothingStandsStillForTwoDays(double minutes, boolean stuck) {
    assertEquals(stuck, shown(4, 1, 0, 0.03).stuck(after(minutes)));
  }

  /**
   * Noise counts to a third of a step: half a step is 1.5 standard deviations, within which 0.86639
   * of the normal curve lie (tables). To be less than 1e-6, ln 1e-6 / ln 0.86639 = 96.3 readings.
   */
  @ParameterizedTest(name = "{0} looks of {1} g with {2} g of noise: stuck {3}")
  @CsvSource({"96, 0.1, 0.2, false", "97, 0.1, 0.2, true", "96, 1, 0.9, false", "97, 1, 0.9, true"})
  void liveScaleWithoutLossShowsOneStepSoOften(
      int looks, double stepG, double noiseG, boolean stuck) {
    assertEquals(stuck, shown(looks, stepG, 0, noiseG).stuck(after(60)));
  }

  /**
   * Of 3 g of expected loss two thirds are sure, and for half of the readings a quarter of those,
   * 0.5 g, off the middle of a step of 1 g: exactly at its edge, with a noise of 0.1 g half of the
   * readings show it. So 0.5 to the half of 39 or 40 looks: 1.35e-6 and 0.95e-6.
   */
  @ParameterizedTest(name = "{0} looks: stuck {1}")
  @CsvSource({"39, false", "40, true"})
  void loadThatLostAStepShowsItLessOften(int looks, boolean stuck) {
    assertEquals(stuck, shown(looks, 1, 3, 0.1).stuck(after(60)));
  }

  @Test
  void coveredCupBeginsAnewAtEachLook() {
    assertEquals(
        new Standstill(320, after(30), 1, false, 0.1, -1, 0, 0.2),
        shown(40, 0.1, 1, 0.2).meant(after(30)));
  }

  @Test
  void stepThatWasNeverTheCupsIsTakenOffWhatWasShown() {
    assertEquals(
        new Standstill(308, Cups.START, 40, true, 0.1, 1, 0.5, 0.2),
        shown(40, 0.1, 0.5, 0.2).without(12));
  }

  @Test
  void loadThatStandsForHalfADayIsNone() {
    assertFalse(shown(4, 1, 0, 0.1).always(after(719.9)));
    assertTrue(shown(4, 1, 0, 0.1).always(after(720)));
  }

  @ParameterizedTest(name = "{0} g: steps of {1} g")
  @CsvSource({"320, 1", "320.5, 0.1", "320.25, 0.01", "320.125, 0.001", "320.0625, 0"})
  void finestStepThatAReadingNeeds(double massG, double stepG) {
    assertEquals(stepG, Standstill.begin(Cups.START, massG, 0.1).stepG(), 1e-12);
  }
}
