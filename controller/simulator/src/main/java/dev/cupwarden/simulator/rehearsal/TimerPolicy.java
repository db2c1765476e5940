package dev.cupwarden.simulator.rehearsal;

import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;

/**
 * A timer as commonly sold: one pass of 20 mL to every cup at nine each morning, plain until most
 * cups have roots that take feed, a quarter of the label from then on.
 */
final class TimerPolicy implements Policy {
  private static final LocalTime NINE = LocalTime.of(9, 0);
  private static final double PASS_ML = 20;
  private static final double STRENGTH = 0.25;

  private final Scene scene;

  TimerPolicy(Scene scene) {
    this.scene = scene;
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    LocalTime clock = readings.at().atZone(scene.zone()).toLocalTime();
    if (clock.isBefore(NINE) || !clock.isBefore(NINE.plus(scene.bench().tick()))) {
      return Decision.watering(List.of());
    }
    int rooted = 0;
    for (int cup = 0; cup < scene.count(); cup++) {
      rooted += readings.stageSaid()[cup].takesFeed() ? 1 : 0;
    }
    double strength = rooted * 2 > scene.count() ? STRENGTH : 0;
    List<Watering> passes = new ArrayList<>();
    for (int cup = 0; cup < scene.count(); cup++) {
      if (readings.onBench()[cup]) {
        passes.add(scene.blend(cup, PASS_ML, strength, "timer"));
      }
    }
    return Decision.watering(passes);
  }
}
