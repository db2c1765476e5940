package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
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

  private static Instant after(double minutes) {
    return Cups.START.plusMillis(Math.round(60_000 * minutes));
  }

  /** The outer readings at 300 g, five minutes before and after. */
  private static Noise bent(double middleG, double varG2, int wild, double roundingVar) {
    return new Noise(varG2, middleG, after(5), 300, Cups.START, 0, wild)
        .read(after(10), 300, roundingVar);
  }

  /**
   * The middle of three even looks is off with 1 + 1/4 + 1/4 times the variance of one. Off by 3 g
   * at 1.5 g²: 9 / 1.5 / 1.5 = 4, two standard deviations, which is not yet wild; the variance goes
   * up by a tenth of 4 - 0.9205. Off by more it pulls no harder, until the sixth in a row: off by 9
   * g it pulls by 4² of 36.
   */
  @Test
  void bendPullsByTwoStandardDeviationsAtMostAndTheSixthInARowByFour() {
    assertEquals(1.5 * 1.30795, bent(303, 1.5, 3, 0).varG2(), 1e-12);
    assertEquals(0, bent(303, 1.5, 3, 0).wild());
    assertEquals(4, bent(303.01, 1.5, 3, 0).wild());
    assertEquals(1.5 * 1.30795, bent(309, 1.5, 4, 0).varG2(), 1e-12);
    assertEquals(1.5 * 2.50795, bent(309, 1.5, 5, 0).varG2(), 1e-12);
    assertEquals(1.5 * 2.50795, bent(291, 1.5, 5, 0).varG2(), 1e-12);
  }

  /** Off by 3 g at 1.5 g² and 1.5 of rounding: half as wild, 2 - 0.9205. */
  @Test
  void roundingExplainsItsPart() {
    assertEquals(1.5 * 1.10795, bent(303, 1.5, 0, 1.5).varG2(), 1e-12);
  }

  @Test
  void bendOverMoreThanFortyMinutesIsNone() {
    Noise before = new Noise(1.5, 303, after(20), 300, Cups.START, 1, 3);
    assertEquals(1.5 * 1.30795, before.read(after(40), 300, 0).varG2(), 1e-12);
    Noise later = before.read(after(40.1), 300, 0);
    assertEquals(new Noise(1.5, 300, after(40.1), 303, after(20), 1, 0), later);
  }

  @Test
  void readingsOfOneMomentMakeNoBend() {
    Noise before = new Noise(1.5, 303, after(5), 300, Cups.START, 1, 3);
    assertEquals(new Noise(1.5, 309, after(5), 303, after(5), 1, 0), before.read(after(5), 309, 0));
    Noise twice = new Noise(1.5, 303, after(5), 300, after(5), 1, 3);
    assertEquals(
        new Noise(1.5, 309, after(10), 303, after(5), 1, 0), twice.read(after(10), 309, 0));
  }

  @Test
  void whatFollowsAnInterruptionIsNotHeldAgainstWhatWasBefore() {
    Noise before = new Noise(1.5, 303, after(5), 300, Cups.START, 1, 3);
    assertEquals(new Noise(1.5, 0, null, 0, null, 1, 0), before.interrupted());
    assertSame(Noise.GUESS, Noise.GUESS.interrupted());
  }

  @Test
  void moreThanOneAndAHalfGramsAreTooMuch() {
    assertFalse(new Noise(2.25, 0, null, 0, null, 0, 0).tooGreat());
    assertTrue(new Noise(2.2501, 0, null, 0, null, 0, 0).tooGreat());
  }
}
