package dev.cupwarden.core.setup;

import java.time.LocalDate;
import java.time.MonthDay;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * How feed is given.
 *
 * @param floor least strength of a fed pass, as a part of the label's
 * @param ceiling greatest strength of any pass
 * @param target part of the label's allowance that a stage may use within one label interval
 * @param strength greatest label strength of a stage's own feed, once it has risen to it
 * @param mostNMgPerL greatest nitrogen in a stage's own feed, likewise
 * @param pause the dark season without feed
 * @param plan which feed from when, in order of date
 */
public record FeedingRules(
    double floor,
    double ceiling,
    Map<RootStage, Double> target,
    Map<RootStage, Double> strength,
    Map<RootStage, Double> mostNMgPerL,
    Optional<Pause> pause,
    List<PlanStep> plan) {

  /**
   * Rooted cuttings are fed at 50 to 100 mg/L N (Hort. Rev. 44); vigorous ones whose roots circle
   * bear some 150. A feed of 20 % N at 1.5 g/L holds 306, so these are a third and half of it.
   */
  public static final FeedingRules USUAL =
      new FeedingRules(
          0.05,
          0.5,
          Map.of(RootStage.TOUGHENED, 1.0, RootStage.CIRCLING, 1.0),
          Map.of(RootStage.TOUGHENED, 0.33, RootStage.CIRCLING, 0.5),
          Map.of(RootStage.TOUGHENED, 100.0, RootStage.CIRCLING, 150.0),
          Optional.empty(),
          List.of());

  /** Days of the year without feed, both ends included; may run over the new year. */
  public record Pause(MonthDay from, MonthDay until) {}

  /** From that day on, that feed. */
  public record PlanStep(LocalDate from, String feed) {}
}
