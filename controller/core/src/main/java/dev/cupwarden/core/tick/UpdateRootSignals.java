package dev.cupwarden.core.tick;

import dev.cupwarden.core.estimate.DryingUse;
import dev.cupwarden.core.units.MiddleValue;
import java.time.Duration;

/** Once a day: what each cup's use of water says of its roots, held against its neighbours'. */
final class UpdateRootSignals {
  private static final Duration DAY = Duration.ofHours(24);

  /** Use is compared in air of this vapour pressure deficit; which one does not matter. */
  private static final double SAME_AIR_KPA = 1.0;

  /** Fewer neighbours say nothing of the weather. */
  private static final int LEAST_NEIGHBOURS = 3;

  void update(BenchDraft draft) {
    boolean due = draft.rootsAt == null || !draft.at.isBefore(draft.rootsAt.plus(DAY));
    if (!due) {
      return;
    }
    draft.rootsAt = draft.at;
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
}
