package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

class StepsTest {

  @Test
  void cupThatRisesAgainAndAgainWhileOthersAreWateredGetsTheirWater() {
    Steps twice = Steps.NONE.whilePumped(14, 3, 80).whilePumped(15, 3, 80);
    assertFalse(twice.astray());
    assertTrue(twice.whilePumped(-0.1, 3, 80).whilePumped(12, 3, 80).astray());
  }

  @Test
  void spikeIsUndoneByItsFall() {
    Steps spike = Steps.NONE.whilePumped(40, 3, 80).whilePumped(-40, 3, 80);
    assertEquals(0, spike.strays());
    assertFalse(spike.whilePumped(40, 3, 80).whilePumped(40, 3, 80).astray());
  }

  @Test
  void riseIsOfOthersPassesAboveItsLeastUpToAllThatWasPumped() {
    assertEquals(0, Steps.NONE.whilePumped(3.0, 3, 80).strays());
    assertEquals(1, Steps.NONE.whilePumped(3.1, 3, 80).strays());
    assertEquals(1, Steps.NONE.whilePumped(80.0, 3, 80).strays());
    assertEquals(0, Steps.NONE.whilePumped(80.1, 3, 80).strays());
  }

  @Test
  void riseOfWhichHalfIsLeftIsKept() {
    Steps rose = Steps.NONE.whilePumped(4, 3, 80).whilePumped(-1.5, 3, 80);
    assertEquals(new Steps(1, 4.0, 2.0, 0, 0.0, 0.0), rose.whilePumped(-0.5, 3, 80));
    assertEquals(Steps.NONE, rose.whilePumped(-0.6, 3, 80));
  }

  @Test
  void fallOfMoreThanHalfAStepIsARestlessScales() {
    Steps rose = Steps.NONE.whilePumped(40, 3, 80);
    assertEquals(new Steps(1, 40.0, 38.5, 0, 0.0, 0.0), rose.whilePumped(-1.5, 3, 80));
    assertEquals(Steps.NONE, rose.whilePumped(-1.6, 3, 80));
  }

  /** Of 30 g four fifths are 24. */
  @Test
  void ofWaterFourFifthsStay() {
    Steps thrice = Steps.NONE;
    for (int rise = 0; rise < 3; rise++) {
      thrice = thrice.whilePumped(10, 3, 80);
    }
    for (int fall = 0; fall < 4; fall++) {
      thrice = thrice.whilePumped(-1.5, 3, 80);
    }
    assertTrue(thrice.astray());
    assertFalse(thrice.whilePumped(-0.1, 3, 80).astray());
  }

  @Test
  void moreThanItsOwnPassCountsAsARise() {
    Steps twice = Steps.NONE.whilePumped(10, 3, 80).overfilled(12.0);
    assertEquals(new Steps(2, 22.0, 22.0, 0, 0.0, 0.0), twice);
    assertTrue(twice.overfilled(8.0).astray());
  }

  @Test
  void readingThatSaysNothingOfWaterEndsTheRowOfRises() {
    Steps stray = Steps.NONE.whilePumped(10, 3, 80);
    assertEquals(stray, stray.withoutRises());
    assertEquals(Steps.NONE, Steps.NONE.atRest(7).withoutRises());
    Steps both = new Steps(1, 10.0, 10.0, 4, 6.0, 7.0);
    assertEquals(stray, both.withoutRises());
  }

  /** Of 0.8 g at least, the greatest at most three times the least. */
  @Test
  void evenRises() {
    assertEquals(1, Steps.NONE.atRest(0.8).rises());
    assertEquals(0, Steps.NONE.atRest(0.79).rises());
    assertEquals(new Steps(0, 0.0, 0.0, 2, 2.0, 6.0), Steps.NONE.atRest(2).atRest(6));
    assertEquals(new Steps(0, 0.0, 0.0, 1, 6.1, 6.1), Steps.NONE.atRest(2).atRest(6.1));
    assertEquals(new Steps(0, 0.0, 0.0, 2, 2.0, 6.0), Steps.NONE.atRest(6).atRest(2));
    assertEquals(new Steps(0, 0.0, 0.0, 1, 1.9, 1.9), Steps.NONE.atRest(6).atRest(1.9));
    Steps fell = Steps.NONE.atRest(6).atRest(-1);
    assertEquals(Steps.NONE, fell);
  }

  @Test
  void restlessScaleIsNotWateredByOthersPasses() {
    Random random = new Random(5);
    int astray = 0;
    Steps steps = Steps.NONE;
    double last = 0;
    for (int reading = 0; reading < 20_000; reading++) {
      double now = 3 * random.nextGaussian();
      steps = steps.whilePumped(now - last, 3, 80);
      last = now;
      astray += steps.astray() ? 1 : 0;
    }
    assertTrue(astray <= 20, astray + " of 20,000 readings of a very noisy scale");
  }

  @Test
  void moreThanWasPumpedIsAPersonsCan() {
    assertEquals(0, Steps.NONE.whilePumped(100, 3, 80).strays());
  }

  @Test
  void fiveEvenRisesWithThePumpAtRestAreALeak() {
    Steps steps = Steps.NONE;
    for (int reading = 0; reading < 4; reading++) {
      steps = steps.atRest(7 + 0.3 * reading);
      assertFalse(steps.running());
    }
    assertTrue(steps.atRest(6.5).running());
    assertFalse(steps.atRest(-1).atRest(7).running());
  }

  /** Of 2 g at least, half as much again is 3 g. */
  @Test
  void evenEnoughForAScaleThatSeemsRestless() {
    Steps four = Steps.NONE.atRest(2).atRest(2).atRest(2.5).atRest(2);
    assertFalse(four.runningEvenly(), "four are no leak yet");
    assertTrue(four.atRest(3.0).runningEvenly());
    Steps uneven = four.atRest(3.1);
    assertTrue(uneven.running());
    assertFalse(uneven.runningEvenly());
  }

  @Test
  void noiseHardlyEverRisesEvenlyFiveTimesInARow() {
    Random random = new Random(11);
    int leaks = 0;
    for (double sdG = 0.5; sdG <= 4; sdG += 0.5) {
      Steps steps = Steps.NONE;
      double last = 0;
      for (int reading = 0; reading < 20_000; reading++) {
        double now = sdG * random.nextGaussian();
        steps = steps.atRest(now - last);
        last = now;
        leaks += steps.running() ? 1 : 0;
      }
    }
    assertTrue(leaks <= 8, leaks + " of 160,000 noisy readings");
  }
}
