package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** Where water went, by gauges, orders and weights. */
class WaterBalanceTest {
  private static double ml(WaterBalance balance) {
    return balance.unexplainedMl();
  }

  @Test
  void passThatArrivedIsFoundAndOneThatCameShortIsMissing() {
    assertEquals(0.0, ml(WaterBalance.NONE.pass(30.0, 30.0)));
    assertEquals(0.0, ml(WaterBalance.NONE.pass(30.0, 33.0)), "more than all makes up for none");
    assertEquals(28.0, ml(WaterBalance.NONE.pass(30.0, 2.0)));
    assertEquals(30.0, ml(WaterBalance.NONE.pass(30.0, -5.0)));
  }

  @Test
  void levelThatFellBeyondTheOrdersIsMissing() {
    assertEquals(2_000.0, ml(WaterBalance.NONE.gauge(2_000.0, true)));
    // Ordered 30, the cup saw nothing, and the gauge says that nothing left: a hose off the pump.
    assertEquals(0.0, ml(WaterBalance.NONE.pass(30.0, 0.0).gauge(-30.0, true)));
  }

  @Test
  void liftedTankIsNoLeakWhileSoundAndAFillExplainsNothingAfterOne() {
    assertEquals(0.0, ml(WaterBalance.NONE.gauge(9_000.0, true).gauge(-12_000.0, true)));
    assertEquals(900.0, ml(WaterBalance.NONE.gauge(900.0, true).gauge(-12_000.0, false)));
  }

  /** 20 mL at most are a gauge's own, our choice. */
  @Test
  void smallRiseOfALevelIsNoFill() {
    WaterBalance missing = new WaterBalance(100.0);
    assertEquals(80.0, ml(missing.gauge(-20.0, false)));
    assertEquals(100.0, ml(missing.gauge(-20.1, false)));
  }

  @Test
  void noiseOfAGaugeAddsUpToLittle() {
    Random random = new Random(4);
    WaterBalance balance = WaterBalance.NONE;
    double before = 0.0;
    double most = 0.0;
    for (int tick = 0; tick < 30 * 288; tick++) {
      double noiseMl = random.nextGaussian();
      balance = balance.gauge(before - noiseMl, true).dry(1.0 / 12.0);
      before = noiseMl;
      most = Math.max(most, ml(balance));
    }
    assertEquals(5.0, most, 5.0, "readings of sd 1 mL, a month");
  }
}
