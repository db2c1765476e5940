package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.setup.RootStage;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** How well days of roots were foretold, of one trial or of several together. */
public final class RootingScore {
  private final List<Double> daysToWhite = new ArrayList<>();
  private final Map<RootStage, List<Double>> errorsDays = new EnumMap<>(RootStage.class);
  private final Map<RootStage, int[]> within = new EnumMap<>(RootStage.class);

  /** A cutting had its first roots after so many days at the warmth of the grower's table. */
  void white(double days) {
    daysToWhite.add(days);
  }

  void answered(RootStage of, CupStatus.LikelyDay foretold, LocalDate came) {
    errorsDays
        .computeIfAbsent(of, stage -> new ArrayList<>())
        .add((double) ChronoUnit.DAYS.between(foretold.likely(), came));
    int[] counts = within.computeIfAbsent(of, stage -> new int[3]);
    counts[came.isBefore(foretold.from()) ? 0 : came.isAfter(foretold.to()) ? 2 : 1]++;
  }

  /** Takes in what another trial found. */
  public void add(RootingScore other) {
    daysToWhite.addAll(other.daysToWhite);
    other.errorsDays.forEach(
        (stage, errors) ->
            errorsDays.computeIfAbsent(stage, each -> new ArrayList<>()).addAll(errors));
    other.within.forEach(
        (stage, counts) -> {
          int[] sum = within.computeIfAbsent(stage, each -> new int[3]);
          for (int i = 0; i < sum.length; i++) {
            sum[i] += counts[i];
          }
        });
  }

  /** Days at the table's warmth by which that part of all had roots. */
  public double daysToWhite(double part) {
    List<Double> sorted = daysToWhite.stream().sorted().toList();
    return sorted.get((int) Math.min(sorted.size() - 1.0, Math.floor(part * sorted.size())));
  }

  /** The part of bands that held the day. */
  public double within(RootStage of) {
    int[] counts = within.get(of);
    return (double) counts[1] / (counts[0] + counts[1] + counts[2]);
  }

  /** A line of each stage. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    within.forEach(
        (stage, counts) ->
            lines.add(
                String.format(
                    Locale.ROOT,
                    "%-10s in their 80 %% bands %.1f %% (before them %d, after them %d, of %d);"
                        + " median error %.1f days",
                    stage.word(),
                    100.0 * within(stage),
                    counts[0],
                    counts[2],
                    counts[0] + counts[1] + counts[2],
                    medianErrorDays(stage))));
    return lines;
  }

  private double medianErrorDays(RootStage of) {
    List<Double> sorted = errorsDays.get(of).stream().map(Math::abs).sorted().toList();
    return sorted.get(sorted.size() / 2);
  }
}
