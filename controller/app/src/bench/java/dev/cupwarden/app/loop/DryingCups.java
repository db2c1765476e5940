package dev.cupwarden.app.loop;

import dev.cupwarden.board.BoardReadings;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Bench;
import java.time.Duration;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;

/** Cups that dry at a steady rate and take what they are given: no physics, no cost. */
final class DryingCups implements BenchHardware {
  private final Map<String, Double> massG = new TreeMap<>();
  private final Map<String, Double> rateGPerH = new TreeMap<>();
  private long passes;

  DryingCups(Bench bench) {
    int i = 0;
    for (String cup : bench.cups().keySet()) {
      massG.put(cup, 280.0 + i % 40);
      rateGPerH.put(cup, 0.8 + 0.02 * (i++ % 50));
    }
  }

  long passes() {
    return passes;
  }

  void dry(Duration time) {
    rateGPerH.forEach(
        (cup, rate) -> massG.merge(cup, -rate * time.toSeconds() / 3600, Double::sum));
  }

  @Override
  public BoardReadings read() {
    Map<String, Double> shown = new TreeMap<>();
    massG.forEach((cup, grams) -> shown.put(cup, Math.rint(grams * 100) / 100));
    return new BoardReadings(
        new TreeMap<>(shown),
        OptionalDouble.of(19),
        OptionalDouble.of(55),
        OptionalDouble.of(18),
        OptionalDouble.empty(),
        new TreeMap<>(),
        new TreeMap<>(),
        new TreeMap<>(),
        false,
        new TreeMap<>());
  }

  @Override
  public DoseOutcome give(AllowedPass pass) {
    passes++;
    massG.merge(pass.cup(), pass.plainMl() + pass.feedMl(), Double::sum);
    return new DoseOutcome.Given(pass.plainMl(), pass.feedMl());
  }

  @Override
  public void allOff() {}
}
