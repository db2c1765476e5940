package dev.cupwarden.simulator.second;

import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Cell;
import java.util.SplittableRandom;

/**
 * A load cell of a cheap kit: it creeps twice (by minutes and by hours), its zero and span go with
 * temperature, its glue swells with the damp of days, a fan shakes it, and the edge of a lamp's or
 * a fan's switch shows in one reading. Sizes: the project's choice after OIML R 60's limits of
 * creep and what is printed of single-point cells (from memory).
 */
public final class DampCell implements Cell {
  private static final double STEP_G = 0.02;
  private static final double SOON_H = 0.25;
  private static final double LATE_H = 7;
  private static final double GLUE_H = 14;
  private static final double BODY_H = 0.9;

  private final SplittableRandom random;
  private final boolean spikes;
  private final double noiseG;
  private final double soonPart;
  private final double latePart;
  private final double zeroGPerC;
  private final double spanPerC;
  private final double zeroGPerPct;
  private double soonG = Double.NaN;
  private double lateG;
  private double bodyC;
  private double gluePct;
  private double zeroG;
  private double lastLight;
  private double lastWind;
  private double lastG;

  /** With or without now and then a spike. */
  public DampCell(boolean spikes, long seed) {
    this.random = new SplittableRandom(seed);
    this.spikes = spikes;
    this.noiseG = 0.04 + 0.09 * random.nextDouble();
    this.soonPart = 0.0003 + 0.0005 * random.nextDouble();
    this.latePart = 0.0004 * random.nextDouble();
    this.zeroGPerC = 0.025 * random.nextGaussian();
    this.spanPerC = 3e-5 * random.nextGaussian();
    this.zeroGPerPct = 0.012 * random.nextGaussian();
  }

  @Override
  public double read(double loadG, Air air, double hours, double noiseTimes) {
    Breeze breeze = Breeze.of(air);
    feel(loadG, breeze, hours);
    double warm = bodyC - 20;
    double shown =
        loadG * (1 + spanPerC * warm)
            + soonPart * soonG
            + latePart * lateG
            + zeroGPerC * warm
            + zeroGPerPct * (gluePct - 50)
            + zeroG;
    double shaken = 1 + 2.5 * Math.max(0, breeze.windMPerS() - Breeze.STILL_M_PER_S);
    shown += noiseG * noiseTimes * shaken * random.nextGaussian();
    shown += edge(breeze);
    lastG = Math.rint(shown / STEP_G) * STEP_G;
    return lastG;
  }

  private void feel(double loadG, Breeze air, double hours) {
    if (Double.isNaN(soonG)) {
      soonG = loadG;
      lateG = loadG;
      bodyC = air.airC();
      gluePct = air.rhPct();
      lastLight = air.lightUmolPerM2S();
      lastWind = air.windMPerS();
    }
    soonG += (loadG - soonG) * -StrictMath.expm1(-hours / SOON_H);
    lateG += (loadG - lateG) * -StrictMath.expm1(-hours / LATE_H);
    bodyC += (air.airC() - bodyC) * -StrictMath.expm1(-hours / BODY_H);
    gluePct += (air.rhPct() - gluePct) * -StrictMath.expm1(-hours / GLUE_H);
    zeroG += 0.008 * Math.sqrt(hours) * random.nextGaussian();
  }

  /** What a switch leaves in the reading beside it. */
  private double edge(Breeze air) {
    boolean switched =
        Math.abs(air.lightUmolPerM2S() - lastLight) > 40
            || Math.abs(air.windMPerS() - lastWind) > 0.2;
    lastLight = air.lightUmolPerM2S();
    lastWind = air.windMPerS();
    double chance = random.nextDouble();
    double size = random.nextGaussian();
    if (switched && chance < 0.08) {
      return 2 * size;
    }
    return spikes && chance > 1 - 1 / 2500.0 ? 60 * size : 0;
  }

  @Override
  public double stuck() {
    return lastG;
  }

  @Override
  public void bump(double grams) {
    zeroG += grams;
  }
}
