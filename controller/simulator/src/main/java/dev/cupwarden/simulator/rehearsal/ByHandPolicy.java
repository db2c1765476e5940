package dev.cupwarden.simulator.rehearsal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * The usual practice: look every second or third day; three passes of 30 mL, a quarter of an hour
 * apart, to what looks dry; half the label's strength once roots are tanned. The eye errs by some
 * fifteen hundredths of the available water. Before a journey all but the wet cups are watered.
 */
final class ByHandPolicy implements Policy {
  private static final double PASS_ML = 30;
  private static final double STRENGTH = 0.5;
  private static final int PASSES = 3;
  private static final long APART_S = 15 * 60;
  private static final double LOOKS_DRY = 0.45;
  private static final double BEFORE_A_JOURNEY = 0.20;
  private static final double EYE_SD = 0.15;

  private final Scene scene;
  private final SplittableRandom random;
  private final int[] passesLeft;
  private Instant nextPass;

  ByHandPolicy(Scene scene, long seed) {
    this.scene = scene;
    this.random = new SplittableRandom(seed);
    this.passesLeft = new int[scene.count()];
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    if (readings.personLooks()) {
      double dry = readings.personLeaves() ? BEFORE_A_JOURNEY : LOOKS_DRY;
      for (int cup = 0; cup < scene.count(); cup++) {
        double seen = scene.cup(cup).depletion() + EYE_SD * random.nextGaussian();
        passesLeft[cup] = seen > dry ? PASSES : 0;
      }
      nextPass = readings.at();
    }
    if (nextPass == null || readings.at().isBefore(nextPass)) {
      return Decision.watering(List.of());
    }
    List<Watering> passes = new ArrayList<>();
    for (int cup = 0; cup < scene.count(); cup++) {
      if (passesLeft[cup] > 0 && readings.onBench()[cup]) {
        passesLeft[cup]--;
        double strength = readings.stageSaid()[cup].takesFeed() ? STRENGTH : 0;
        passes.add(scene.blend(cup, PASS_ML, strength, "by-hand"));
      }
    }
    nextPass = passes.isEmpty() ? null : readings.at().plusSeconds(APART_S);
    return Decision.watering(passes);
  }
}
