package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Json;
import org.junit.jupiter.api.Test;

class EstimatorTest {
  private final Cups cup = new Cups();

  @Test
  void cupNeverSeenIsTrustedOnItsFirstPlausibleReading() {
    assertEquals("never-read", cup.code());
    CupEstimate seen = cup.reads(312.4);
    assertTrue(seen.trusted());
    assertTrue(seen.known());
    assertFalse(seen.rateKnown());
    assertEquals(312.4, seen.massG(), 1e-9);
  }

  @Test
  void steadyDryingGivesItsRate() {
    cup.dries(48, 320, 1.3);
    CupEstimate seen = cup.estimate();
    assertTrue(seen.trusted());
    assertTrue(seen.rateKnown());
    assertEquals(1.3, seen.rateGPerH(), 0.1);
    assertEquals(320 - 1.3 * 47 / 12, seen.massG(), 0.1);
    assertTrue(cup.events.isEmpty());
  }

  @Test
  void absurdFirstReadingIsNotBelievedAndTenQuietMinutesMendIt() {
    assertEquals("scale-out-of-range", codeAfter(9999));
    assertEquals("settling", codeAfter(300));
    assertEquals("settling", codeAfter(299.9));
    assertEquals("trusted", codeAfter(299.8));
  }

  @Test
  void weightAboveSaturationIsNotBelievedAtOnce() {
    cup.dries(6, 320, 1.3);
    assertEquals("scale-out-of-range", codeAfter(530));
    assertEquals("scale-out-of-range", codeAfter(-400));
    assertEquals("scale-out-of-range", codeAfter(Double.POSITIVE_INFINITY));
  }

  @Test
  void spikeOfOneReadingIsPassedOverWithoutLosingTrust() {
    double massG = cup.dries(24, 320, 1.3);
    CupEstimate inDoubt = cup.reads(massG + 40);
    assertTrue(inDoubt.trusted());
    assertEquals(massG, inDoubt.massG(), 0.3);
    assertTrue(inDoubt.massSdG() > 10, "a reading in doubt makes the weight unsure");
    CupEstimate after = cup.reads(massG - 0.1);
    assertTrue(after.trusted());
    assertEquals(massG - 0.1, after.massG(), 0.2);
    assertTrue(cup.events.isEmpty());
  }

  @Test
  void ownDoseIsMeasuredAndKeepsTrustAndRate() {
    double massG = cup.dries(36, 320, 1.3);
    CupEstimate after = cup.look(5, massG + 29.2, 30, true);
    assertTrue(after.trusted());
    var dose = cup.events(WeightEvent.OwnDose.class).get(0);
    assertEquals(29.2, dose.gainG(), 0.2);
    assertEquals(30, dose.orderedMl());
    assertEquals(1.3, after.rateGPerH(), 0.1);
    assertEquals(massG + 29.2, after.massG(), 0.1);
  }

  @Test
  void passThatDoesNotArriveIsToldAsNoGain() {
    double massG = cup.dries(36, 320, 1.3);
    cup.look(5, massG, 30, true);
    assertEquals(0, cup.events(WeightEvent.OwnDose.class).get(0).gainG(), 0.2);
    cup.look(5, massG + 25, 0, true);
    assertEquals(25, cup.events(WeightEvent.OwnDose.class).get(1).gainG(), 0.3);
    assertTrue(cup.estimate().trusted());
  }

  @Test
  void handWateringIsToldByTheSecondReadingAndStaysTrusted() {
    double massG = cup.dries(24, 320, 1.3);
    assertTrue(cup.reads(massG + 50).trusted());
    assertTrue(cup.reads(massG + 49.8).trusted());
    assertEquals(49.9, cup.events(WeightEvent.HandWatering.class).get(0).gainG(), 0.3);
    assertEquals(1, cup.events.size());
  }

  @Test
  void liftedCupNeedsTenQuietMinutesAfterItsReturn() {
    double massG = cup.dries(24, 320, 1.3);
    CupEstimate away = cup.reads(0.3);
    assertTrue(away.lifted());
    assertFalse(away.trusted());
    cup.reads(-0.1);
    assertEquals("settling", codeAfter(massG + 20));
    assertFalse(cup.estimate().lifted());
    assertEquals("settling", codeAfter(massG + 19.9));
    assertEquals("trusted", codeAfter(massG + 19.8));
    assertEquals(1, cup.events(WeightEvent.Lifted.class).size());
    assertEquals(20.2, cup.events(WeightEvent.Returned.class).get(0).changeG(), 0.4);
  }

  @Test
  void handLeaningOnTheScaleGoesByAndIsNoWatering() {
    double massG = cup.dries(24, 320, 1.3);
    cup.reads(700);
    cup.reads(640);
    cup.reads(massG - 0.3);
    cup.reads(massG - 0.4);
    cup.reads(massG - 0.5);
    assertEquals("trusted", cup.code());
    assertEquals(1, cup.events(WeightEvent.Leaned.class).size());
    assertEquals(1, cup.events.size());
  }

  /** The frame ends at 501 g: a tall cup's weight on a short cup's scale. */
  @Test
  void cupTooHeavyForThisPlaceIsToldOnceAndAgainWhenItLeaves() {
    double massG = cup.dries(24, 320, 1.3);
    cup.reads(640);
    assertTrue(cup.events.isEmpty());
    cup.reads(640.2);
    cup.reads(640.1);
    assertEquals(1, cup.events(WeightEvent.Exchanged.class).size());
    assertEquals(massG, cup.events(WeightEvent.Exchanged.class).get(0).beforeG(), 1);
    assertEquals(640.2, cup.events(WeightEvent.Exchanged.class).get(0).afterG(), 1e-9);
    for (int look = 0; look < 3; look++) {
      cup.reads(massG - 0.6);
    }
    assertEquals("trusted", cup.code());
    WeightEvent.Exchanged back = cup.events(WeightEvent.Exchanged.class).get(1);
    assertEquals(640.2, back.beforeG(), 1e-9);
    assertEquals(massG - 0.6, back.afterG(), 0.3);
  }

  @Test
  void cupThatFellIsNotBelievedUntilItIsQuiet() {
    double massG = cup.dries(24, 320, 1.3);
    cup.reads(massG - 30);
    assertEquals("settling", codeAfter(massG - 30.1));
    assertEquals(-30, cup.events(WeightEvent.Returned.class).get(0).changeG(), 0.3);
    assertEquals("trusted", codeAfter(massG - 30.2));
  }

  @Test
  void stuckScaleIsFoundWithinFortyFiveMinutesAndMendsAfterTenQuietOnes() {
    double massG = cup.dries(36, 320, 1.3);
    double stuck = massG + 0.0137;
    for (int looks = 0; looks < 9; looks++) {
      assertTrue(cup.look(5, stuck, 0, true).trusted());
    }
    cup.look(5, stuck, 0, true);
    assertEquals("scale-stuck", cup.code());
    assertEquals(1.3, cup.state.excursion().before().rateGPerH(), 0.1);
    cup.dries(1, massG - 1.4, 1.3);
    assertEquals("settling", cup.code());
    cup.dries(2, massG - 1.5, 1.3);
    assertEquals("trusted", cup.code());
    assertTrue(cup.events.isEmpty());
  }

  @Test
  void equalWeightsWhileNothingMovesAreNoFault() {
    for (int looks = 0; looks < 24; looks++) {
      assertTrue(cup.look(5, 320, 0, false).trusted());
    }
  }

  @Test
  void readingOfTenthsThatStandsStillAtNightIsNotStuck() {
    for (int looks = 0; looks < 72; looks++) {
      cup.look(5, Math.round((320 - 0.1 * looks / 12) * 10) / 10.0, 0, true);
    }
    for (int looks = 72; looks < 144; looks++) {
      assertTrue(cup.look(5, Math.round((320 - 0.1 * looks / 12) * 10) / 10.0, 0, true).trusted());
    }
  }

  /** A display of whole grams, a cell of a tenth of a gram, light that goes out and comes again. */
  private double inWholeGrams(int looks, double fromG, double gPerH, double light, boolean live) {
    double shownG = Math.rint(fromG);
    for (int look = 0; look < looks; look++) {
      double massG = fromG - gPerH * look / 12 + 2 * Cups.wobble(look);
      shownG = live ? Math.rint(massG) : shownG;
      cup.look(5, new CupReading(cup.now, shownG, 0, 1.0, 20.0, light, true));
    }
    return fromG - gPerH * looks / 12;
  }

  private double threeDaysInWholeGrams() {
    double massG = 395;
    for (int day = 0; day < 3; day++) {
      massG = inWholeGrams(144, massG, 1.8, 200, true);
      massG = inWholeGrams(144, massG, 0.04, 0, true);
    }
    return massG;
  }

  @Test
  void scaleOfWholeGramsThatIsStuckIsFoundWithinFiveStepsOfLoss() {
    double massG = threeDaysInWholeGrams();
    massG = inWholeGrams(24, massG, 1.8, 200, true);
    inWholeGrams(33, massG, 1.8, 200, false);
    assertEquals("scale-stuck", cup.code());
  }

  @Test
  void scaleOfWholeGramsUnderAStillCupIsNotStuckInALongNight() {
    double massG = threeDaysInWholeGrams();
    massG = inWholeGrams(144, massG, 1.8, 200, true);
    for (int hour = 0; hour < 16; hour++) {
      massG = inWholeGrams(12, massG, 0.01, 0, true);
      assertEquals("trusted", cup.code(), "hour " + hour);
    }
  }

  @Test
  void silentScaleIsNotBelievedAfterTwelveMinutesAndTheFirstReadingMendsIt() {
    cup.dries(24, 320, 1.3);
    cup.reads(Double.NaN);
    cup.reads(Double.NaN);
    assertTrue(cup.estimate().trusted(), "ten minutes old");
    cup.reads(Double.NaN);
    assertEquals("scale-silent", cup.code());
    assertEquals("trusted", codeAfter(317));
  }

  @Test
  void oneWeighingADayIsEnough() {
    cup.looks(0, 350);
    assertTrue(cup.looks(24 * 60, 322).trusted());
    CupEstimate third = cup.looks(24 * 60, 295);
    assertTrue(third.trusted());
    assertTrue(third.rateKnown());
    assertEquals(27 / 24.0, third.rateGPerH(), 0.1);
    assertEquals(295, third.massG(), 0.1);
    assertTrue(cup.events.isEmpty());
  }

  @Test
  void wateringOverAGapIsTakenAtOnce() {
    cup.dries(24, 320, 1.3);
    assertTrue(cup.looks(600, 370).trusted());
    assertEquals(370 - 320 + 15.4, cup.events(WeightEvent.HandWatering.class).get(0).gainG(), 2);
  }

  @Test
  void leapingScaleIsNoisyWithinThreeReadings() {
    double massG = cup.dries(24, 320, 1.3);
    cup.reads(massG + 60);
    cup.reads(massG - 40);
    assertFalse(cup.estimate().trusted());
    cup.reads(massG + 30);
    assertFalse(cup.estimate().trusted());
    cup.reads(massG - 80);
    assertFalse(cup.estimate().trusted());
    cup.reads(massG + 10);
    assertEquals("scale-noisy", cup.code());
  }

  /** Learned were 1.2 g/h, within half of it; the stillness of its scale has taught 0.3. */
  @Test
  void stuckScaleLeavesTheRateThatWasKnownBefore() {
    StillCup stuck = new StillCup();
    stuck.filter = StillCup.weighs(320, 0.3);
    stuck.standstill = stoodStill(1.2);
    LoadFilter before = stuck.reads(5, 320).state().excursion().before();
    assertEquals(1.2, before.rateGPerH());
    assertEquals(0.36, before.varR(), 1e-12);
    stuck.standstill = stoodStill(0);
    assertEquals(0, stuck.reads(5, 320).state().excursion().before().rateGPerH());
    stuck.standstill = stoodStill(-1);
    assertEquals(0.3, stuck.reads(5, 320).state().excursion().before().rateGPerH(), "not known");
  }

  /** For an hour, in thousandths of a gram, beside scales that moved. */
  private static Standstill stoodStill(double rateGPerH) {
    return new Standstill(320, Cups.START.minusSeconds(3600), 12, true, 0.001, rateGPerH, 0, 0.1);
  }

  @Test
  void noiseIsHeardWhileACupOnlyDries() {
    cup.reads(320);
    assertEquals(320, cup.state.noise().lastG());
    cup.reads(319.9);
    assertEquals(319.9, cup.state.noise().lastG());
    assertEquals(320, cup.state.noise().beforeG());
    // More than any pass can have brought, in doubt: whatever it is, it is no noise.
    cup.look(5, 390, 30, true);
    assertTrue(cup.state.inDoubt());
    assertNull(cup.state.noise().lastAt());
  }

  @Test
  void waterIsNoNoise() {
    StillCup watered = new StillCup();
    assertNull(watered.reads(60, 350).state().noise().lastAt(), "watered by hand");
    watered.filter = StillCup.weighs(400, 0);
    watered.standstill = StillCup.showed(400);
    watered.drainage = Drainage.begin(Cups.START, 400, StillCup.FRAME);
    assertNull(watered.reads(5, 399).state().noise().lastAt(), "draining");
    watered.drainage = null;
    assertEquals(399, watered.reads(5, 399).state().noise().lastG());
  }

  @Test
  void stateSurvivesARestartAsJson() throws Exception {
    double massG = cup.dries(30, 320, 1.3);
    cup.look(5, massG + 60, 20, true);
    cup.reads(0);
    EstimateState back =
        Json.MAPPER.readValue(Json.MAPPER.writeValueAsString(cup.state), EstimateState.class);
    assertEquals(cup.state, back);
    assertEquals(
        EstimateState.fresh(),
        Json.MAPPER.readValue(
            Json.MAPPER.writeValueAsString(EstimateState.fresh()), EstimateState.class));
  }

  private String codeAfter(double massG) {
    cup.reads(massG);
    return cup.code();
  }
}
