package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A still cup of 320 g, read once more: exactly at each bound, and just beyond it. */
class FollowingBoundsTest {
  private final StillCup cup = new StillCup();

  private static Instant after(double minutes) {
    return Cups.START.plusMillis(Math.round(60_000 * minutes));
  }

  private static double rate(EstimateStep step) {
    return step.state().filter().rateGPerH();
  }

  @ParameterizedTest(name = "{0} g: in doubt {1}")
  @CsvSource({"322, false", "322.1, true", "318, false", "317.9, true"})
  void readingBelongsWithinTwoGrams(double massG, boolean doubted) {
    assertEquals(doubted, cup.reads(5, massG).state().inDoubt());
  }

  /** With looks of five minutes a scale is silent after twelve. */
  @Test
  void readingAfterTwelveMinutesIsInDoubtAndAfterMoreItIsTaken() {
    EstimateStep looked = cup.reads(12, 360);
    assertEquals(List.of(), looked.events());
    assertTrue(looked.state().inDoubt());
    assertEquals(
        List.of(new WeightEvent.HandWatering(after(12.1), 320, 40)), cup.reads(12.1, 360).events());
  }

  @ParameterizedTest(name = "{0} g after an hour: watered {1}")
  @CsvSource({"322, false", "322.1, true"})
  void cupThatRoseByMoreThanTwoGramsOverAGapGotWater(double massG, boolean watered) {
    assertEquals(watered, !cup.reads(60, massG).events().isEmpty());
  }

  /** It rises by 3 g/h: on its scale something drips, or the scale creeps. */
  @Test
  void riseThatWasForetoldIsNoWater() {
    cup.filter = StillCup.weighs(320, -3);
    EstimateStep step = cup.reads(60, 323);
    assertEquals(List.of(), step.events());
    assertTrue(step.state().settled());
  }

  /** The fastest cup loses 10 g in an hour, and 2 g are the scale's. */
  @ParameterizedTest(name = "{0} g after an hour: handled {1}")
  @CsvSource({"308, false", "307.9, true"})
  void cupThatFellByMoreThanAnyDriesWasHandled(double massG, boolean handled) {
    assertEquals(handled, cup.reads(60, massG).state().handled());
  }

  /** At 12 g/h 317 g are foretold after a quarter of an hour; no cup loses more than 4.5 g. */
  @ParameterizedTest(name = "{0} g: handled {1}")
  @CsvSource({"315, false", "314.9, true"})
  void cupThatFellByMoreThanForetoldWasHandled(double massG, boolean handled) {
    cup.filter = StillCup.weighs(320, 12);
    assertEquals(handled, cup.reads(15, massG).state().handled());
  }

  /**
   * What the warmth of the scale has to do with the rate: of 0.01 a reading of two hours later
   * takes 0.0008 x 0.02 / 0.0121. In that time the rate wandered by 0.02 g/h in each: 0.0008 of
   * covariance with the mass, whose own with the warmth is 2 h x 0.01.
   */
  @ParameterizedTest(name = "after {0} min: {1}")
  @CsvSource({"120, 0.00868", "121, 0"})
  void afterMoreThanTwoHoursAReadingSaysNothingOfTheScalesWarmth(double minutes, double covRK) {
    cup.filter = new LoadFilter(Cups.START, 320, 0, 0, 0, 0, 0, 0, 0.01, 1);
    assertEquals(covRK, cup.reads(minutes, 320).state().filter().covRK(), 1e-5);
  }

  /** 2.1 g less after an hour: 2.1 g/h, but for the 0.01 g² of noise beside 4.41 g². */
  @Test
  void fallBeyondTwoGramsOverAGapIsARateThatWasWrong() {
    assertEquals(0, rate(cup.reads(60, 318)), 0.1, "no more than the scale errs");
    assertEquals(2.1, rate(cup.reads(60, 317.9)), 0.01);
  }

  /**
   * 2.5 g less after 0.25 h: a rate in doubt by 10 g/h has a variance of 100, and in its 6.25 g² of
   * the mass the noise of 0.0108 g² is lost: 0.25 x 100 / 6.261 x 2.5.
   */
  @Test
  void fallBeyondTwoGramsInAQuarterOfAnHour() {
    assertEquals(9.98, rate(cup.reads(15, 317.5)), 0.005);
  }

  /** Of 40 g in doubt the reading after the gap shows nothing: 5 g more than before is the can. */
  @Test
  void spikeBeforeAGapDoesNotHideAWatering() {
    doubted(40);
    assertEquals(
        List.of(new WeightEvent.HandWatering(after(60), 320, 5)), cup.reads(60, 325).events());
  }

  /** Half a gram more than the reading in doubt is no second watering. */
  @Test
  void stepBeforeAGapIsToldOnce() {
    doubted(40);
    assertEquals(
        List.of(new WeightEvent.HandWatering(Cups.START, 320, 40)), cup.reads(60, 360.5).events());
    doubted(-40);
    assertEquals(
        List.of(new WeightEvent.Returned(Cups.START, 320, -40)), cup.reads(60, 280).events());
  }

  @Test
  void readingAsNearToBothTakesTheOneInDoubtForASpike() {
    doubted(40);
    assertEquals(
        List.of(new WeightEvent.HandWatering(after(60), 320, 20)), cup.reads(60, 340).events());
  }

  private void doubted(double offG) {
    cup.doubt = new Doubt(Cups.START, 320 + offG, offG);
    cup.standstill = StillCup.showed(320 + offG);
  }

  /** From 352 g on, a fifth of 240 mL below 400 g. */
  @ParameterizedTest(name = "{0} g: in doubt {1}")
  @CsvSource({"353, false", "352, true"})
  void cupThatDrainsIsNotFollowedBelowWhereItDrains(double massG, boolean doubted) {
    cup.filter = StillCup.weighs(400, 0);
    cup.standstill = StillCup.showed(400);
    cup.drainage = Drainage.begin(Cups.START, 400, StillCup.FRAME);
    assertEquals(doubted, cup.reads(5, massG).state().inDoubt());
  }

  /** 30 mL by a fifth, 3 g and the 2 g of any reading: 41 g. */
  @ParameterizedTest(name = "{0} g after 30 mL: the pass {1}")
  @CsvSource({"361, true", "361.1, false", "318, true", "317.9, false"})
  void riseThatIsThePassExactly(double massG, boolean pass) {
    cup.awaitedMl = 30;
    List<WeightEvent> events = cup.reads(5, massG).events();
    assertEquals(
        pass ? List.of(new WeightEvent.OwnDose(after(5), 320, massG - 320, 30)) : List.of(),
        events);
  }

  /** Half way from the knee at 256 g to the end at 160 g it loses half of what it does when wet. */
  @Test
  void waterRevivesTheRate() {
    cup.filter = StillCup.weighs(208, 0.5);
    cup.awaitedMl = 60;
    assertEquals(1, rate(cup.reads(5, 268)), 1e-9);
  }

  /**
   * A reading that is off by more than three standard deviations pulls by three: 0.3 of them beside
   * 0.7 of what pulled before.
   */
  @ParameterizedTest(name = "{0} before, {1} g: {2}")
  @CsvSource({"0, 321.5, 0.9", "1, 321.5, 1.6", "4, 318.5, 1.9", "-1, 318.5, -1.6"})
  void readingsOnOneSidePull(double before, double massG, double pull) {
    cup.pull = before;
    assertEquals(pull, cup.reads(5, massG).state().pull(), 1e-9);
  }

  /**
   * A pull of 1.6 is beyond 1.26. For 1/12 h / 0.3 = 0.2778 h it may have been off by 1.5 g, a rate
   * of 5.4 g/h: 29.16 of variance, of the mass 0.2025 g² and of both -2.43. With the scale's 0.01
   * g² and 0.1² / 12 of rounding a standard deviation is 0.4619 g, three are 1.3858 g: -2.43 /
   * 0.21338 x 1.3858.
   */
  @Test
  void pulledFarEnoughTheRateFollows() {
    cup.pull = 1;
    assertEquals(-15.78, rate(cup.reads(5, 321.5)), 0.01);
  }

  @Test
  void readingOnTheOtherSideDoesNotMoveTheRate() {
    cup.pull = 4;
    assertEquals(0, rate(cup.reads(5, 318.5)), 0.01);
  }

  @Test
  void twoReadingsOfOneMomentTellNoRate() {
    cup.pull = 2;
    EstimateStep step = cup.reads(0, 321.5);
    assertEquals(0, rate(step));
    // In no time it cannot have lost anything: all is noise.
    assertEquals(320, step.state().filter().massG());
  }

  @Test
  void scaleThatHasBecomeTooNoisyIsNotBelieved() {
    cup.noise = new Noise(4, 0, null, 0, null, 2, 0);
    EstimateState noisy = cup.reads(5, 320.1).state();
    assertFalse(noisy.settled());
    assertEquals(
        new Distrust(DistrustCode.SCALE_NOISY, 2, 1.5),
        CupEstimate.at(noisy, StillCup.FRAME, after(5)).distrust().orElseThrow());
    cup.noise = Noise.GUESS;
    assertTrue(cup.reads(5, 320.1).state().settled());
  }
}
