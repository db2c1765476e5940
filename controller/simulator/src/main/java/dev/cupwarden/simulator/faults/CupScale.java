package dev.cupwarden.simulator.faults;

import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Cell;
import java.util.SplittableRandom;

/**
 * A small load cell under one cup, at the level of grams: noise, creep, drift with temperature
 * behind a lag, slow wandering of its zero, steps of its converter, spikes.
 *
 * <p>Sizes after what is usual of single-point cells of 1 kg: creep 0.02 to 0.1 % in half an hour,
 * zero 0.02 to 0.05 % of full scale per 10 °C (from memory), a tenth of a gram of noise after
 * averaging.
 */
public final class CupScale implements Cell {
  private static final double STEP_G = 0.01;
  private static final double CREEP_LAG_H = 0.4;
  private static final double CELL_LAG_H = 0.7;
  private static final double SPIKE_CHANCE = 1 / 1500.0;

  private final SplittableRandom random;
  private final boolean spikes;
  private final double noiseG;
  private final double creepPart;
  private final double driftGPerC;
  private final double wanderGPerRootH;
  private double settledG = Double.NaN;
  private double cellC = 20;
  private double zeroG;
  private double lastG;

  /** With or without now and then a spike. */
  public CupScale(boolean spikes, long seed) {
    this.random = new SplittableRandom(seed);
    this.spikes = spikes;
    this.noiseG = 0.05 + 0.10 * random.nextDouble();
    this.creepPart = 0.0002 + 0.0006 * random.nextDouble();
    this.driftGPerC = 0.02 * random.nextGaussian();
    this.wanderGPerRootH = 0.01;
  }

  @Override
  public double read(double loadG, Air air, double hours, double noiseTimes) {
    return read(loadG, air.airC(), hours, noiseTimes);
  }

  /** What the scale shows under that load after that many hours in that air. */
  public double read(double loadG, double airC, double hours, double noiseTimes) {
    if (Double.isNaN(settledG)) {
      settledG = loadG;
    }
    settledG += (loadG - settledG) * Math.min(1, hours / CREEP_LAG_H);
    cellC += (airC - cellC) * Math.min(1, hours / CELL_LAG_H);
    zeroG += wanderGPerRootH * Math.sqrt(hours) * random.nextGaussian();
    double shown = loadG + creepPart * settledG + driftGPerC * (cellC - 20) + zeroG;
    shown += noiseG * noiseTimes * random.nextGaussian();
    if (spikes && random.nextDouble() < SPIKE_CHANCE) {
      shown += (random.nextBoolean() ? 1 : -1) * (5 + 195 * random.nextDouble());
    }
    lastG = Math.rint(shown / STEP_G) * STEP_G;
    return lastG;
  }

  @Override
  public void bump(double grams) {
    zeroG += grams;
  }

  @Override
  public double stuck() {
    return lastG;
  }
}
