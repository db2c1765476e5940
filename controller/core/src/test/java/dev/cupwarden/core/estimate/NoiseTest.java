package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.Random;
import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

/** A scale's noise by what neighbouring readings show, whatever the cup does meanwhile. */
class NoiseTest {
  private static final Duration LOOK = Duration.ofMinutes(5);
  private final Random random = new Random(20);
  private Noise noise = Noise.GUESS;
  private Instant at = Cups.START;

  private void reads(int looks, double sdG, IntToDoubleFunction loadG) {
    for (int look = 0; look < looks; look++) {
      at = at.plus(LOOK);
      noise = noise.read(at, loadG.applyAsDouble(look) + sdG * random.nextGaussian(), 0);
    }
  }

  @Test
  void steadyNoiseIsFoundByItself() {
    double meanSdG = 0;
    for (int hours = 0; hours < 200; hours++) {
      reads(12, 0.25, look -> 300);
      meanSdG += noise.sdG() / 200;
    }
    assertEquals(0.25, meanSdG, 0.02);
  }

  @Test
  void lightThatMakesACupDryTenTimesAsFastIsNoNoise() {
    reads(100, 0.1, look -> 300);
    reads(12, 0.1, look -> 300 - 4.0 * look / 12);
    assertEquals(0.1, noise.sdG(), 0.05);
    reads(12, 0.1, look -> 296);
    assertEquals(0.1, noise.sdG(), 0.05);
  }

  /** A switch's edge in one reading, a knock that shifts the zero. */
  @Test
  void oneWrongReadingOrOneStepIsNoNoise() {
    reads(100, 0.1, look -> 300);
    reads(12, 0.1, look -> look == 3 ? 304 : 300);
    assertTrue(noise.sdG() < Noise.GREAT_SD_G, "sd " + noise.sdG());
    reads(12, 0.1, look -> 340);
    assertTrue(noise.sdG() < Noise.GREAT_SD_G, "sd " + noise.sdG());
    assertEquals(0, noise.greatH());
  }

  @Test
  void looseWireIsGreatSoonAndSoForHours() {
    reads(100, 0.1, look -> 300);
    reads(18, 2.0, look -> 300);
    assertTrue(noise.greatH() > 0, "sd " + noise.sdG());
    assertEquals(1.0, noise.greatH(), 0.25, "of an hour and a half");
    reads(18, 1.0, look -> 300);
    assertEquals(2.5, noise.greatH(), 0.25, "of three");
    reads(60, 0.1, look -> 300);
    assertEquals(0, noise.greatH());
  }

  @Test
  void restlessScaleIsTooNoisyForAnyPass() {
    reads(400, 0.5, look -> 300);
    assertFalse(noise.tooGreat());
    reads(60, 4.0, look -> 300);
    assertTrue(noise.tooGreat());
  }

  /** Looks that are not evenly apart: the line goes through both outer readings at their times. */
  @Test
  void unevenLooksAtASteadyRateAreNoNoise() {
    noise = noise.read(at, 300, 0);
    for (int look = 0; look < 200; look++) {
      Duration step = look % 2 == 0 ? Duration.ofMinutes(2) : Duration.ofMinutes(11);
      at = at.plus(step);
      noise = noise.read(at, 300 - 6.0 * Duration.between(Cups.START, at).toMinutes() / 60, 0);
    }
    assertEquals(0.03, noise.sdG(), 1e-9);
  }

  @Test
  void roundingToWholeGramsIsNotCountedTwice() {
    for (int look = 0; look < 2000; look++) {
      at = at.plus(LOOK);
      noise = noise.read(at, Math.rint(300 - 0.37 * look), 1.0 / 12);
    }
    assertTrue(noise.sdG() < 0.29, "sd " + noise.sdG());
  }
}
