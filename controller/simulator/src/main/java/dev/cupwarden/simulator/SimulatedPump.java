package dev.cupwarden.simulator;

import java.util.SplittableRandom;

/**
 * The dosing pump and its hose.
 *
 * <table>
 * <caption>What is drawn (N normal, U uniform); all are the project's choice</caption>
 * <tr><th>effect</th><th>drawn as</th><th>reason</th></tr>
 * <tr><td>bias</td><td>rate × N(1, 0.03), for good</td><td>calibrated with a measuring cup</td></tr>
 * <tr><td>run to run</td><td>rate × N(1, 0.02)</td><td>supply voltage, level in the tank</td></tr>
 * <tr><td>wear</td><td>−2 % for every 10 h of running</td><td>hoses of roller pumps tire</td></tr>
 * <tr><td>air in the line</td><td>the first U(0, 1) mL after 6 h of rest does not come</td><td>the
 *     hose drains a little</td></tr>
 * <tr><td>dribble</td><td>U(0.1, 0.5) mL within 2 s of switching off</td><td>the hose's pressure and
 *     its open end</td></tr>
 * </table>
 */
final class SimulatedPump {
  private static final double WEAR_PER_S = 0.02 / 36_000;
  private static final double REST_S = 6 * 3600;
  private static final double DRIBBLE_S = 2;

  private final SplittableRandom random;
  private final double mlPerS;
  private boolean on;
  private double runFactor = 1;
  private double ranS;
  private double restedS = REST_S;
  private double airMl;
  private double dribbleMl;

  SimulatedPump(double mlPerS, long seed) {
    this.random = new SplittableRandom(seed);
    this.mlPerS = mlPerS * Math.max(0.5, 1 + 0.03 * random.nextGaussian());
  }

  boolean on() {
    return on;
  }

  void drive(boolean nowOn) {
    if (nowOn && !on) {
      runFactor = Math.max(0.5, 1 + 0.02 * random.nextGaussian());
      airMl = restedS >= REST_S ? random.nextDouble() : 0;
    } else if (!nowOn && on) {
      restedS = 0;
      dribbleMl = 0.1 + 0.4 * random.nextDouble();
    }
    on = nowOn;
  }

  /** What leaves the hose within that time if the way is open, mL. */
  double move(double seconds) {
    if (!on) {
      restedS += seconds;
      double ml = dribbleMl * Math.min(1, seconds / DRIBBLE_S);
      dribbleMl -= ml;
      return ml;
    }
    double ml = mlPerS * runFactor * Math.max(0.5, 1 - WEAR_PER_S * ranS) * seconds;
    ranS += seconds;
    double lost = Math.min(airMl, ml);
    airMl -= lost;
    return ml - lost;
  }
}
