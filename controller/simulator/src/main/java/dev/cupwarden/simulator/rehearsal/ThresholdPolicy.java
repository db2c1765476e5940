package dev.cupwarden.simulator.rehearsal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * On and off by weight: the first weighing, soaked and drained, is taken for full; below half of
 * the foretold available water 30 mL are given every twelve minutes until the weight is within a
 * tenth of full, by day or night. A quarter of the label once roots take feed.
 */
final class ThresholdPolicy implements Policy {
  private static final double PASS_ML = 30;
  private static final double STRENGTH = 0.25;

  private final Scene scene;
  private final double[] fullG;
  private final boolean[] refilling;
  private final Instant[] lastPass;

  ThresholdPolicy(Scene scene) {
    this.scene = scene;
    this.fullG = new double[scene.count()];
    this.refilling = new boolean[scene.count()];
    this.lastPass = new Instant[scene.count()];
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    List<Watering> passes = new ArrayList<>();
    for (int cup = 0; cup < scene.count(); cup++) {
      double massG = readings.massG()[cup];
      if (!readings.onBench()[cup] || Double.isNaN(massG)) {
        continue;
      }
      if (fullG[cup] == 0) {
        fullG[cup] = massG;
      }
      double missing = (fullG[cup] - massG) / scene.nominal(cup).availableMl();
      refilling[cup] = refilling[cup] ? missing > 0.1 : missing > 0.5;
      boolean soaked =
          lastPass[cup] == null
              || !readings.at().isBefore(lastPass[cup].plus(scene.bench().watering().soak()));
      if (refilling[cup] && soaked) {
        double strength = readings.stageSaid()[cup].takesFeed() ? STRENGTH : 0;
        passes.add(scene.blend(cup, PASS_ML, strength, "threshold"));
        lastPass[cup] = readings.at();
      }
    }
    return Decision.watering(passes);
  }
}
