package dev.cupwarden.core.tick;

import dev.cupwarden.core.estimate.DryingUse;
import dev.cupwarden.core.estimate.PlantDraw;
import dev.cupwarden.core.units.MiddleValue;
import java.time.Duration;
import java.util.List;

/** Once a day: what each cup's use of water says of its roots, held against its neighbours'. */
final class UpdateRootSignals {
  private static final Duration DAY = Duration.ofHours(24);

  /** Use is compared in air of this vapour pressure deficit; which one does not matter. */
  private static final double SAME_AIR_KPA = 1.0;

  /** Fewer neighbours say nothing of the weather. */
  private static final int LEAST_NEIGHBOURS = 3;

  /** More than this part of the cups do not fall ill on one day: our choice. */
  private static final double MOST_FALLING = 0.1;

  void update(BenchDraft draft) {
    boolean due = draft.rootsAt == null || !draft.at.isBefore(draft.rootsAt.plus(DAY));
    if (!due) {
      return;
    }
    draft.rootsAt = draft.at;
    feelDraw(draft);
    double[] uses =
        draft.cups.values().stream()
            .mapToDouble(UpdateRootSignals::useGPerH)
            .filter(u -> u > 0)
            .toArray();
    double medianGPerH = MiddleValue.of(uses, uses.length, LEAST_NEIGHBOURS + 1);
    for (CupDraft cup : draft.cups.values()) {
      double useGPerH = useGPerH(cup);
      if (useGPerH > 0.0) {
        cup.plant = cup.plant.with(cup.plant.roots().day(draft.at, useGPerH, medianGPerH));
      }
    }
  }

  /** NaN while it is not known, or its scale is in doubt. */
  private static double useGPerH(CupDraft cup) {
    DryingUse use = cup.weight.estimate().use();
    if (!cup.now.trusted() || cup.presence.away() || !use.known()) {
      return Double.NaN;
    }
    return use.knownPerKpa() ? use.gPerHAt(SAME_AIR_KPA) : use.meanGPerH();
  }

  /** What each cutting drew by day, held against the others'. */
  private static void feelDraw(BenchDraft draft) {
    double[] changes =
        draft.cups.values().stream()
            .mapToDouble(cup -> cup.plant.draw().change())
            .filter(change -> !Double.isNaN(change))
            .toArray();
    double middle = MiddleValue.of(changes, changes.length, LEAST_NEIGHBOURS + 1);
    List<CupDraft> falling =
        draft.cups.values().stream().filter(cup -> cup.plant.draw().falls(middle)).toList();
    // Many at once: a cold day, a blind let down, a person who has handled the bench.
    boolean alone = falling.size() <= Math.max(1.0, MOST_FALLING * changes.length);
    // Cold roots take up almost nothing, some plants' sooner than others'.
    boolean cold = draft.rootC() < draft.bench.climate().coldC();
    for (CupDraft cup : draft.cups.values()) {
      boolean watered = cup.depletion() <= cup.frame.lines().due();
      cup.plant =
          cup.plant.with(
              unseenForADay(draft, cup)
                  ? PlantDraw.NONE
                  : cup.plant.draw().close(middle, alone && watered && !cold));
    }
  }

  /** What it drew before days of which nothing was seen is no measure of what it draws after. */
  private static boolean unseenForADay(BenchDraft draft, CupDraft cup) {
    return cup.weight.distrustedSince() != null
        && !draft.at.isBefore(cup.weight.distrustedSince().plus(DAY));
  }
}
