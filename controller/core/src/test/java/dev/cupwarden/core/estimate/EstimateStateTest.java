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
  void hoursForWhichItsScaleWasNoisy() {
    StillCup noisy = new StillCup();
    noisy.noise = new Noise(1, 0, null, 0, null, 1.5, 0);
    assertEquals(1.5, noisy.state().noisyH());
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
}
