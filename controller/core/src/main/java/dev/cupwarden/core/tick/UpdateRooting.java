package dev.cupwarden.core.tick;

import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.RootingClock;
import dev.cupwarden.core.units.Elapsed;
import java.time.temporal.ChronoUnit;

/** How far each cutting without toughened roots has come, by what is known of its plant. */
final class UpdateRooting {
  private static final double HOURS_A_DAY = 24.0;

  private UpdateRooting() {}

  static void update(BenchDraft draft) {
    for (CupDraft cup : draft.cups.values()) {
      if (!cup.setup.stage().takesFeed()) {
        cup.frame.plant().ifPresent(plant -> update(draft, cup, plant));
      }
    }
  }

  private static void update(BenchDraft draft, CupDraft cup, Plant plant) {
    RootingClock was = cup.plant.rooting();
    if (was == null) {
      cup.plant =
          cup.plant.with(
              RootingClock.begun(daysSinceStruck(draft, cup), plant.rooting(), draft.at));
    } else if (draft.before.at() != null) {
      double days = Elapsed.hours(draft.before.at(), draft.at) / HOURS_A_DAY;
      RootingClock now = was.plus(days, plant.dayWorth(draft.rootsC(cup)));
      cup.plant = cup.plant.with(cup.plant.roots().draws() ? now.risen(draft.at) : now);
    }
  }

  /** 0 where nobody said when, or the day is still to come. */
  private static double daysSinceStruck(BenchDraft draft, CupDraft cup) {
    return cup.setup
        .struck()
        .map(struck -> Math.max(0L, ChronoUnit.DAYS.between(struck, draft.today())))
        .orElse(0L)
        .doubleValue();
  }
}
