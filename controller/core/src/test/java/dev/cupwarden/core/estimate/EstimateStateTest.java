package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** What others may ask of a cup's estimate. */
class EstimateStateTest {
  private final Cups cup = new Cups();

  @Test
  void cupThatWasNeverSeen() {
    EstimateState fresh = EstimateState.fresh();
    assertFalse(fresh.weighed());
    assertTrue(fresh.settled());
    assertFalse(fresh.inDoubt());
    assertFalse(fresh.draining());
    assertFalse(fresh.handled());
    assertTrue(Double.isNaN(fresh.readingG()));
    assertEquals(Noise.GUESS.sdG(), fresh.readingSdG(), 1e-12);
    assertEquals(Noise.GUESS.sdG(), fresh.noiseG(), 1e-12);
    assertEquals(Cups.TALL, fresh.frame(Cups.TALL));
  }

  @Test
  void cupThatIsWeighed() {
    cup.reads(320);
    assertTrue(cup.state.weighed());
    assertEquals(320, cup.state.readingG());
    assertFalse(cup.state.handled());
    cup.reads(360);
    assertTrue(cup.state.inDoubt());
    cup.reads(320);
    assertFalse(cup.state.inDoubt());
  }

  /** At 1.2 g/h, on a scale that shows 0.05 g more for each of 4 °C: 320 - 1.2 + 0.2 g. */
  @Test
  void whatItsScaleShouldShow() {
    StillCup still = new StillCup();
    still.filter = new LoadFilter(Cups.START, 320, 1.2, 0.05, 0, 0, 0, 0, 0, 0);
    still.weather = new Weather(1, 24);
    assertEquals(319, still.state().expectedG(Cups.START.plusSeconds(3600)), 1e-9);
    still.excursion = new Excursion(Fault.MOVED, StillCup.weighs(390, 0), 0, null, 0, 0, 0, 10, 0);
    assertEquals(390, still.state().expectedG(Cups.START), 1e-9, "what was believed last");
    still.excursion = new Excursion(Fault.MOVED, null, 0, null, 0, 0, 0, 10, 0);
    assertEquals(320.2, still.state().expectedG(Cups.START), 1e-9, "never believed before");
    assertTrue(Double.isNaN(EstimateState.fresh().expectedG(Cups.START)));
  }

  /** Five standard deviations of sqrt(4 + 0.1² / 12) = 2.00021 g. */
  @Test
  void howFarOffAReadingMayBe() {
    StillCup noisy = new StillCup();
    noisy.noise = new Noise(4, 0, null, 0, null, 0, 0);
    assertEquals(10.00104, noisy.state().expectedWithinG(Cups.START), 1e-5);
    assertEquals(0, EstimateState.fresh().expectedWithinG(Cups.START));
  }

  @Test
  void stepThatWasNeverItsOwnIsTakenOffItsWeight() {
    EstimateState without = new StillCup().state().without(12);
    assertEquals(308, without.filter().massG());
    assertEquals(308, without.readingG());
    assertEquals(EstimateState.fresh(), EstimateState.fresh().without(12));
  }

  /** 1.5 g/h, known within a third: 0.5 g/h. */
  @Test
  void reckonedRateIsKnownWithinAThird() {
    OwnWater own = new OwnWater(Cups.START, Cups.START, 340, 4, 0, 0.04, 1.5, 1, 0);
    assertEquals(0.25, new StillCup().state().goingOnFrom(own).filter().varR(), 1e-9);
  }

  @Test
  void liftedOrMovedCupIsInAHand() {
    cup.dries(24, 320, 0.6);
    cup.reads(0);
    assertTrue(cup.state.handled());
    assertFalse(cup.state.settled());
    Cups fell = new Cups();
    fell.dries(24, 320, 0.6);
    fell.reads(290);
    fell.reads(290);
    assertTrue(fell.state.handled());
  }

  /** A weight that no cup has may be a broken wire's, until the same load is borne twice. */
  @Test
  void otherLoadInItsSteadIsAHandsOnceItWasBorneTwice() {
    cup.dries(24, 320, 0.6);
    cup.reads(900.2);
    assertFalse(cup.state.handled());
    cup.reads(900.1);
    assertTrue(cup.state.handled());
  }

  @Test
  void waterThatWasTakenBackIsNotAwaited() {
    cup.reads(320);
    cup.look(5, Double.NaN, 30, true);
    assertEquals(20, cup.state.withoutAwaited(10).awaitedMl());
    assertEquals(0, cup.state.withoutAwaited(40).awaitedMl());
  }

  @Test
  void capacityThatWasLearnedIsPutOverTheFrame() {
    EstimateState learned =
        EstimateState.fresh().withCapacity(Capacity.PREDICTED.weighed(Cups.START, 390));
    assertEquals(390, learned.frame(Cups.TALL).capacityG());
    assertEquals(390, learned.capacity().massG());
  }

  @Test
  void hoursForWhichItsScaleWasNoisy() {
    StillCup noisy = new StillCup();
    noisy.noise = new Noise(1, 0, null, 0, null, 1.5, 0);
    assertEquals(1.5, noisy.state().noisyH());
  }

  /** 340 g of its own within 2 g, though its scale showed the 200 g of another until now. */
  @Test
  void cupThatIsBackGoesOnFromItsOwnWater() {
    cup.dries(24, 200, 0.6);
    OwnWater own = new OwnWater(Cups.START, cup.now, 340, 4, 0, 0.04, 1, 1, 0);
    cup.state = cup.state.goingOnFrom(own);
    assertEquals(340, cup.estimate().massG(), 1e-9);
    assertEquals(2, cup.estimate().massSdG(), 1e-9);
    assertEquals(1, cup.estimate().rateGPerH(), 1e-9);
    assertEquals(1 / 3.0, cup.estimate().rateSdGPerH(), 1e-9);
    cup.events.clear();
    assertEquals(338.5, cup.reads(338.5).massG(), 0.1);
    assertEquals("", cup.told(), "nobody watered it");
    assertEquals(EstimateState.fresh(), EstimateState.fresh().goingOnFrom(own));
  }

  @Test
  void ofAVisitorNothingIsLearned() {
    cup.dries(24, 320, 0.6);
    EstimateState before = cup.state;
    cup.dries(24, 300, 2.0);
    EstimateState after = cup.state.learnedAs(before);
    assertEquals(before.use(), after.use());
    assertEquals(before.capacity(), after.capacity());
    assertEquals(before.day(), after.day());
    assertEquals(cup.state.readingG(), after.readingG());
  }
}
