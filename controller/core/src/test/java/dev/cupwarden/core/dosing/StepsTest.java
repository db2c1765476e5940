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
