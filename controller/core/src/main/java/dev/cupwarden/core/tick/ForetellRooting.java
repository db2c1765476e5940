package dev.cupwarden.core.tick;

import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.RootsSeen;
import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.RootingClock;
import dev.cupwarden.core.plants.RootingForecast;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** On which days roots are likely, of a cutting whose plant is known. */
final class ForetellRooting {
  private static final double HOURS_A_DAY = 24.0;

  /** In such cold nobody can say when: our choice. */
  private static final double LEAST_PACE = 0.05;

  private ForetellRooting() {}

  /** Null where its plant is not known, its roots are toughened, or nothing can be said. */
  static CupStatus.Rooting of(BenchDraft draft, CupDraft cup) {
    RootingClock clock = cup.plant.rooting();
    Optional<Plant> plant = cup.frame.plant();
    if (clock == null || plant.isEmpty() || clock.pace() < LEAST_PACE) {
      return null;
    }
    if (cup.setup.stage() == RootStage.STRUCK) {
      return RootingForecast.white(plant.get().rooting(), clock)
          .map(
              white ->
                  new CupStatus.Rooting(
                      days(draft, white, clock.days(), clock.pace()),
                      days(draft, white.thenToughened(), clock.days(), clock.pace())))
          .orElse(null);
    }
    if (cup.setup.stage() == RootStage.WHITE && cup.plant.stageSince() != null) {
      double soFar = clock.pace() * days(cup.plant.stageSince(), draft.at);
      double noneAt = clock.pace() * days(cup.plant.stageSince(), clock.lookedAt());
      return RootingForecast.toughened(noneAt)
          .map(tough -> new CupStatus.Rooting(null, days(draft, tough, soFar, clock.pace())))
          .orElse(null);
    }
    return null;
  }

  /**
   * Roots that were seen, of cuttings of which they had been foretold.
   *
   * @param draft of how the bench stood before
   */
  static List<RootsSeen> seen(BenchDraft draft, BenchState after) {
    List<RootsSeen> seen = new ArrayList<>();
    for (CupDraft cup : draft.cups.values()) {
      CupState next = after.cups().get(cup.name());
      if (next == null || !further(cup.setup, next.setup())) {
        continue;
      }
      CupStatus.Rooting foretold = of(draft, cup);
      CupStatus.LikelyDay day =
          foretold == null
              ? null
              : next.setup().stage().takesFeed() ? foretold.toughened() : foretold.white();
      if (day != null) {
        seen.add(new RootsSeen(cup.name(), next.setup().stage(), draft.dayOf(after.at()), day));
      }
    }
    return seen;
  }

  /** Whether it is the same cutting with more to see. */
  private static boolean further(Cup before, Cup after) {
    return after.stage().compareTo(before.stage()) > 0
        && after.plant().equals(before.plant())
        && after.struck().equals(before.struck());
  }

  /** 0 where nobody has looked since. */
  private static double days(Instant since, Instant until) {
    return until == null ? 0.0 : Math.max(0.0, Elapsed.hours(since, until) / HOURS_A_DAY);
  }

  /**
   * @param soFar how far it has come, in the forecast's days
   */
  private static CupStatus.LikelyDay days(
      BenchDraft draft, RootingForecast forecast, double soFar, double pace) {
    return new CupStatus.LikelyDay(
        day(draft, (forecast.earlyDays() - soFar) / pace),
        day(draft, (forecast.likelyDays() - soFar) / pace),
        day(draft, (forecast.lateDays() - soFar) / pace));
  }

  private static LocalDate day(BenchDraft draft, double ahead) {
    return draft.dayOf(draft.at.plus(Duration.ofMinutes(Math.round(ahead * HOURS_A_DAY * 60.0))));
  }
}
