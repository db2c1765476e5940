package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A cup near its capacity, 390 g before its weight was not believed, that has been quiet for five
 * minutes when the look before comes: what one reading more makes of it.
 */
class SettlingBoundsTest {
  private static final Instant NOW = Cups.START.plusSeconds(300);

  private final StillCup cup = new StillCup();

  /** Quiet at that weight, having shown another at its farthest. */
  private void settlesAt(LoadFilter quiet, double peakG, double ownMl) {
    cup.filter = quiet;
    cup.standstill = StillCup.showed(quiet.massG());
    cup.excursion = movedFrom(StillCup.weighs(390, 0), peakG, ownMl);
  }

  private static Excursion movedFrom(LoadFilter before, double peakG, double ownMl) {
    Instant quietSince = Cups.START.minusSeconds(300);
    return new Excursion(Fault.MOVED, before, peakG, quietSince, 0, ownMl, 0, 10, 0);
  }

  /** Two grams are half of a least pass: what lies within is no event. */
  @ParameterizedTest(name = "{0} g now, {1} g at its farthest, {2} mL ordered: {3}, draining {4}")
  @CsvSource({
    "392, 392, 0, '', false",
    "392, 392, 30, '', false",
    "392.1, 392.1, 0, HandWatering, true",
    "392.1, 392.1, 30, OwnDose, true",
    "388, 388, 0, '', false",
    "387.9, 387.9, 0, Returned, false",
    "390, 392, 0, '', false",
    "390, 388, 0, '', false",
    "390, 392.1, 0, Leaned, false",
    "390, 387.9, 0, Leaned, false"
  })
  void whatWasIsToldBeyondTwoGrams(
      double massG, double peakG, double ownMl, String event, boolean draining) {
    settlesAt(StillCup.weighs(massG, 0), peakG, ownMl);
    EstimateStep step = cup.reads(5, massG);
    assertTrue(step.state().settled());
    String told = step.events().isEmpty() ? "" : step.events().get(0).getClass().getSimpleName();
    assertEquals(event, told);
    assertEquals(draining, step.state().draining());
  }

  /**
   * Before it was known to 1 g and now to sqrt(1 / 2) g, by a reading as exact as what was
   * foretold: five standard deviations of both are 6.12 g. So 5 g more are no water.
   */
  @Test
  void bothWeightsMayErr() {
    settlesAt(new LoadFilter(Cups.START, 395, 0, 0, 1, 0, 0, 0, 0, 0), 380, 0);
    cup.excursion = movedFrom(new LoadFilter(Cups.START, 390, 0, 0, 1, 0, 0, 0, 0, 0), 380, 0);
    cup.noise = new Noise(1, 0, null, 0, null, 0, 0);
    List<WeightEvent> events = cup.reads(5, 395).events();
    assertEquals(List.of(new WeightEvent.Leaned(NOW, 390, 380)), events);
  }

  @ParameterizedTest(name = "{0} g: quiet broken {1} times")
  @CsvSource({"392, 0", "388, 0", "392.1, 1", "387.9, 1"})
  void readingWithinTwoGramsBreaksNoQuiet(double massG, int breaks) {
    settlesAt(StillCup.weighs(390, 0), 390, 0);
    cup.excursion = cup.excursion.quietFrom(Cups.START);
    assertEquals(breaks, cup.reads(5, massG).state().excursion().breaks());
  }

  /**
   * Known to 1 g, read to 0.1: three standard deviations are 3.016 g. A reading that is off by 4 g
   * pulls by that, and 1 / 1.0108 of it is taken; after more than two hours all of the 4 g pull,
   * and say nothing of what the scale's warmth has to do with the rate.
   */
  @ParameterizedTest(name = "after {0} min: {1} g, {2}")
  @CsvSource({"5, 392.984, 0.01", "120, 392.986, 0.01", "180, 393.958, 0"})
  void afterHoursAReadingIsTakenAsItIs(double minutes, double massG, double covRK) {
    settlesAt(new LoadFilter(Cups.START, 390, 0, 0, 1, 0, 0, 0, 0.01, 0), 390, 0);
    cup.excursion = cup.excursion.quietFrom(Cups.START.plusSeconds(60));
    LoadFilter read = cup.reads(minutes, 394).state().filter();
    assertEquals(massG, read.massG(), 0.002);
    assertEquals(covRK, read.covRK(), 1e-4);
  }

  /** A cup of which nothing was known, absurd at first, twice. */
  @Test
  void cupThatWasNeverKnownGoesOnFromWhatItShowed() {
    Cups fresh = new Cups();
    fresh.reads(9999);
    fresh.reads(300);
    fresh.reads(9999);
    fresh.reads(301);
    assertEquals("settling", fresh.code());
    assertEquals(301, fresh.estimate().massG(), 1e-9);
  }

  /** A cell creeps by a thousandth of what was put on it; what leant on it is gone. */
  @Test
  void cellCreepsAfterTheCupIsBackAndNotAfterALoadThatLeft() {
    Cups lifted = new Cups();
    lifted.reads(320);
    lifted.reads(0);
    lifted.reads(320);
    assertEquals(0.32, lifted.state.creep().amplitudeG(), 1e-9);
    Cups leant = new Cups();
    leant.reads(320);
    leant.reads(900);
    leant.reads(320);
    assertEquals(0, leant.state.creep().amplitudeG(), 1e-9);
  }
}
