package dev.cupwarden.core.setup;

import java.time.LocalDate;
import java.time.MonthDay;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How feed is given, in label-equivalents per label interval.
 *
 * @param floor least strength of a fed pass, as a part of the label's
 * @param ceiling greatest strength of any pass
 * @param target what a stage gets within one label interval, once it has risen to it
 * @param pause the dark season without feed
 * @param plan which feed from when, in order of date
 */
public record FeedingRules(
    double floor,
    double ceiling,
    Map<RootStage, Double> target,
    Optional<Pause> pause,
    List<PlanStep> plan) {

  /** Half the label at most, as cups are watered far more often than a label supposes. */
  public static final FeedingRules USUAL =
      new FeedingRules(
          0.0,
          0.5,
          Map.of(RootStage.TOUGHENED, 0.5, RootStage.CIRCLING, 1.0),
          Optional.empty(),
          List.of());

  /** Days of the year without feed, both ends included; may run over the new year. */
  public record Pause(MonthDay from, MonthDay until) {}

  /** From that day on, that feed. */
  public record PlanStep(LocalDate from, String feed) {}
}
