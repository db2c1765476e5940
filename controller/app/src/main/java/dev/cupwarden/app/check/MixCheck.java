package dev.cupwarden.app.check;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.substrate.CupWater;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Whether each mix holds air enough for warm roots once it has drained in its vessel, if it can.
 */
final class MixCheck {
  private final Bench bench;

  MixCheck(Bench bench) {
    this.bench = bench;
  }

  /** A note for each mix and vessel that do not, and the cups that are of them. */
  List<Finding> all() {
    SortedMap<String, List<String>> cups = new TreeMap<>();
    for (Cup cup : bench.cups().values()) {
      CupWater water =
          CupWater.of(
              bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup.cuttingG());
      if (!bench.vessels().get(cup.vessel()).holes()) {
        String standing =
            cup.vessel()
                + " has no holes: water past capacity stands in it, salts stay in it, and rot comes"
                + " sooner; holes in its base are better.";
        cups.computeIfAbsent(standing, of -> new ArrayList<>()).add(cup.name());
      }
      if (water.safeAirDepletion() > 0.0) {
        String drained =
            String.format(
                Locale.ROOT,
                "%s in %s drains to %.0f %% air, and warm roots are safe from %.0f %% on"
                    + " (its least_air and 5 %% more): a coarser mix or a deeper vessel.",
                cup.mix(),
                cup.vessel(),
                100.0 * water.airAtCapacity(),
                100.0 * water.safeAir());
        cups.computeIfAbsent(drained, of -> new ArrayList<>()).add(cup.name());
      }
    }
    return cups.entrySet().stream()
        .map(
            entry ->
                Finding.note(
                    "mix", entry.getKey() + " Cups: " + String.join(", ", entry.getValue())))
        .toList();
  }
}
