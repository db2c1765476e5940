package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * A change of feed that the plan wants and that no tank holds yet, told a week ahead so that the
 * old mix can be used up.
 *
 * @param from the day from which the new feed is wanted
 * @param feed which
 * @param days until then; 0 or less: it is wanted now
 */
public record FeedSwitch(LocalDate from, String feed, long days) {
  /** Told so long ahead: our choice. */
  public static final long AHEAD_DAYS = 7;

  /**
   * The change that is near or overdue, if there is one.
   *
   * @param plan in order of date
   * @param inTanks feeds that the tanks hold; with none there is nothing to change
   */
  public static Optional<FeedSwitch> due(
      List<FeedingRules.PlanStep> plan, LocalDate today, Set<String> inTanks) {
    FeedingRules.PlanStep near = null;
    for (FeedingRules.PlanStep step : plan) {
      if (!step.from().isAfter(today.plusDays(AHEAD_DAYS))) {
        near = step;
      }
    }
    if (near == null || inTanks.isEmpty() || inTanks.contains(near.feed())) {
      return Optional.empty();
    }
    return Optional.of(
        new FeedSwitch(near.from(), near.feed(), ChronoUnit.DAYS.between(today, near.from())));
  }

  /** What to mix, when and how much of it. */
  public String sentence(Feed label, double tankMl, double strength) {
    return String.format(
        Locale.ROOT,
        "From %s on the plan wants %s: use up what is in the tank, then mix %.1f g of it into %.1f L"
            + " (strength %s).",
        from,
        feed,
        label.labelGPerL() * strength * tankMl / 1000.0,
        tankMl / 1000.0,
        strength);
  }
}
