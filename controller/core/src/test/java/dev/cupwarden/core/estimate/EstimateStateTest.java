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
