package dev.cupwarden.core.tick;

import dev.cupwarden.core.messages.Advice;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;

/**
 * Toughened cups of the story's bench with what they truly hold beside what their scales show. A
 * scale may fall by itself; a cup may drain above its capacity or keep everything; a pump may give
 * less than ordered and a mix keep only a part. Time goes by in ticks of five minutes.
 */
final class TrueWater {
  static final double CAPACITY_G = 401.872;
  static final double AVAILABLE_ML = 271.754;
  static final double REFILL = 0.05;
  static final double DUE = 0.50;
  static final double DRY = 0.75;
  private static final double NOISE_G = 0.05;
  private static final double DRAINS_IN_H = 0.3;
  private static final Duration TICK = Duration.ofMinutes(5);

  final Story story;
  final SortedMap<String, Double> trueG = new TreeMap<>();
  final SortedMap<String, Double> driftGPerH = new TreeMap<>();
  final SortedMap<String, Double> rateGPerH = new TreeMap<>();
  private final SortedMap<String, Double> offG = new TreeMap<>();
  private final SplittableRandom random = new SplittableRandom(7);
  boolean drains;
  double least = Double.POSITIVE_INFINITY;
  double most = Double.NEGATIVE_INFINITY;
  double runoffMl;

  /** So many cups at that depletion, the first of them A1, losing so much an hour. */
  TrueWater(int cups, double depletion, double gPerH) {
    StringBuilder yaml = new StringBuilder(Story.BENCH);
    yaml.setLength(yaml.indexOf("  A2:"));
    for (int i = 2; i <= cups; i++) {
      yaml.append(
          String.format(
              Locale.ROOT,
              "  A%d: {vessel: tall, mix: coir-perlite, plant: vine, stage: toughened,"
                  + " cutting: 14 g}%n",
              i));
    }
    story = new Story(yaml.toString(), "2027-02-01T00:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (int i = 1; i <= cups; i++) {
      String name = "A" + i;
      trueG.put(name, massG(depletion + 0.03 * (i - 1)));
      rateGPerH.put(name, gPerH * (1.0 - 0.05 * (i - 1)));
      offG.put(name, 0.0);
    }
  }

  static double massG(double depletion) {
    return CAPACITY_G - depletion * AVAILABLE_ML;
  }

  double depletion(String cup) {
    return (CAPACITY_G - trueG.get(cup)) / AVAILABLE_ML;
  }

  double wetLine() {
    return story.tick.standing(story.state).statuses().get(0).wet();
  }

  /** One tick, with these orders. */
  Advice look(String... orders) {
    double hours = TICK.toMillis() / 3.6e6;
    story.at = story.at.plus(TICK);
    for (String cup : List.copyOf(trueG.keySet())) {
      double lostG = depletion(cup) < 1.0 ? rateGPerH.get(cup) * hours : 0.0;
      double overG = drains ? Math.max(0.0, trueG.get(cup) - CAPACITY_G) : 0.0;
      double runsG = overG * (1.0 - Math.exp(-hours / DRAINS_IN_H));
      runoffMl += runsG;
      trueG.merge(cup, -lostG - runsG, Double::sum);
      offG.merge(cup, -driftGPerH.getOrDefault(cup, 0.0) * hours, Double::sum);
      double noiseG = NOISE_G * random.nextGaussian();
      story.massG.put(cup, Math.rint(1000 * (trueG.get(cup) + offG.get(cup) + noiseG)) / 1000);
    }
    Advice advice = story.look(orders);
    for (Advice.Pass pass : advice.passes()) {
      double part = story.arrives.getOrDefault(pass.cup(), 1.0);
      trueG.merge(pass.cup(), part * (pass.plainMl() + pass.feedMl()), Double::sum);
    }
    least = Math.min(least, depletion("A1"));
    most = Math.max(most, depletion("A1"));
    return advice;
  }

  Advice run(Duration time) {
    Advice last = null;
    for (long minutes = 0; minutes < time.toMinutes(); minutes += TICK.toMinutes()) {
      last = look();
    }
    return last;
  }

  /** From here on extremes are kept anew. */
  void watch() {
    least = depletion("A1");
    most = least;
  }

  boolean told(String cup) {
    return story.alerts.stream()
        .anyMatch(
            alert ->
                alert.code().equals("scale-drifting")
                    && cup.equals(alert.cup())
                    && alert.state().equals("raised"));
  }
}
