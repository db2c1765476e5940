package dev.cupwarden.simulator;

import java.util.SplittableRandom;

/**
 * A single-point load cell of 1 kg and 1 mV/V under one cup, as its converter feels it: the load,
 * with what a real cell adds to it.
 *
 * <table>
 * <caption>What is drawn, for each cell (N normal, U uniform) and for each conversion</caption>
 * <tr><th>effect</th><th>drawn as</th><th>reason</th></tr>
 * <tr><td>creep</td><td>U(0.02, 0.1) % of the load, time constant 12 min</td><td>usual of small cells
 *     in half an hour (from memory)</td></tr>
 * <tr><td>drift of zero</td><td>N(0, 0.02) g/°C of the cell, which follows the air in 40 min</td>
 *     <td>0.02 to 0.05 % of full scale per 10 °C (from memory)</td></tr>
 * <tr><td>hysteresis</td><td>U(0.02, 0.05) % of full scale, half of it seen</td><td>usual of small
 *     cells (from memory)</td></tr>
 * <tr><td>noise</td><td>N(0, 50 nV) at 10 conversions a second, growing with the root of the rate</td>
 *     <td>usual of 24-bit converters at gain 128 (from memory); the supply is 3 V</td></tr>
 * <tr><td>spike</td><td>1 conversion in 5,000, U(5, 200) g up or down</td><td>a step on the floor, a
 *     relay: project choice</td></tr>
 * </table>
 */
final class LoadCell {
  private static final double FULL_SCALE_G = 1000;
  private static final double SUPPLY_V = 3.0;
  private static final double NOISE_V = 50e-9;
  private static final double CREEP_S = 720;
  private static final double LAG_S = 2400;
  private static final double SPIKES = 1 / 5000.0;

  private final SplittableRandom random;
  private final double creepPart;
  private final double driftGPerC;
  private final double hysteresisG;
  private double creptG = Double.NaN;
  private double heldG;
  private double cellC;
  private double noiseTimes = 1;

  /** A cell that has been at that temperature for long. */
  LoadCell(double airC, long seed) {
    this.random = new SplittableRandom(seed);
    this.creepPart = 0.0002 + 0.0008 * random.nextDouble();
    this.driftGPerC = 0.02 * random.nextGaussian();
    this.hysteresisG = (0.0002 + 0.0003 * random.nextDouble()) * FULL_SCALE_G;
    this.cellC = airC;
  }

  /** Noise so many times the usual. */
  void loosen(double times) {
    noiseTimes = times;
  }

  /** Time passes under that load in that air. */
  void advance(double seconds, double loadG, double airC) {
    if (Double.isNaN(creptG)) {
      creptG = loadG;
      heldG = loadG;
    }
    creptG += (loadG - creptG) * (1 - StrictMath.exp(-seconds / CREEP_S));
    cellC += (airC - cellC) * (1 - StrictMath.exp(-seconds / LAG_S));
    heldG = Math.max(loadG - hysteresisG, Math.min(loadG + hysteresisG, heldG));
  }

  /**
   * What one conversion sees, g, without bound.
   *
   * @param gPerRatio grams for a bridge ratio of one
   * @param conversionsPerS the converter's rate
   */
  double convert(double loadG, double gPerRatio, double conversionsPerS) {
    double seenG = loadG + creepPart * creptG + driftGPerC * (cellC - 20);
    seenG += 0.5 * (heldG - loadG);
    double noiseG = NOISE_V / SUPPLY_V * gPerRatio * Math.sqrt(conversionsPerS / 10);
    seenG += noiseTimes * Math.abs(noiseG) * random.nextGaussian();
    if (random.nextDouble() < SPIKES) {
      seenG += (random.nextBoolean() ? 1 : -1) * (5 + 195 * random.nextDouble());
    }
    return seenG;
  }
}
