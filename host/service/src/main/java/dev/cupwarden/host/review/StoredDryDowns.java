package dev.cupwarden.host.review;

import dev.cupwarden.core.climate.LightSum;
import dev.cupwarden.core.climate.VapourPressure;
import dev.cupwarden.core.substrate.DryDown;
import dev.cupwarden.core.substrate.DryDownSegments.Weighing;
import dev.cupwarden.core.substrate.DryDowns;
import dev.cupwarden.core.substrate.DryDowns.Air;
import dev.cupwarden.host.HostException;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Curve;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** The dry-downs of a cup, as the core cuts and fits them from what is stored. */
public final class StoredDryDowns {
  /**
   * Closer readings tell no more of days, and a season of them would fill a small host's memory.
   */
  private static final long STEP_MS = Duration.ofMinutes(5).toMillis();

  /** Humidity and temperature are read together; older ones do not belong to each other. */
  private static final long TOGETHER_MS = Duration.ofMinutes(10).toMillis();

  /** Longer between two readings nobody knows what the light did. */
  private static final Duration LIGHT_GAP = Duration.ofHours(1);

  private static final double KNOWN_LIGHT_PART = 0.8;

  private StoredDryDowns() {}

  private static String light(OptionalDouble molPerM2Day) {
    return molPerM2Day.isPresent()
        ? String.format(Locale.ROOT, "%.1f", molPerM2Day.getAsDouble())
        : "unknown";
  }

  /**
   * Those of at least six hours, oldest first.
   *
   * @throws HostException if no weight of the cup is stored
   */
  public static List<DryDown> of(Store store, Asked asked, String cup) {
    List<DryDown> found = in(store, asked, cup);
    if (found.isEmpty() && stored(store, asked, cup + "/mass").size() == 0) {
      throw new HostException(
          "There are no weights of cup " + cup + " on bench " + asked.bench() + " in that time.");
    }
    return found;
  }

  /** The same; none where no weight is stored. */
  public static List<DryDown> in(Store store, Asked asked, String cup) {
    List<Weighing> weighings = new ArrayList<>();
    Curve curve = stored(store, asked, cup + "/mass");
    for (int index = 0; index < curve.size(); index++) {
      weighings.add(new Weighing(Instant.ofEpochMilli(curve.atMs(index)), curve.value(index)));
    }
    List<Instant> doses = new ArrayList<>();
    for (EventRow dose : EventTables.oldestFirst(store, asked, "dose")) {
      if (cup.equals(dose.cup())) {
        doses.add(dose.at());
      }
    }
    return DryDowns.of(weighings, doses, air(store, asked));
  }

  private static Curve stored(Store store, Asked asked, String series) {
    Curve all = store.readings().between(asked.bench(), series, asked.from(), asked.to());
    Curve.Builder some = new Curve.Builder();
    long keptMs = Long.MIN_VALUE;
    for (int index = 0; index < all.size(); index++) {
      if (keptMs == Long.MIN_VALUE || all.atMs(index) - keptMs >= STEP_MS) {
        keptMs = all.atMs(index);
        some.add(keptMs, all.value(index));
      }
    }
    return some.build();
  }

  /** Each temperature with the humidity that was read last. */
  private static List<Air> air(Store store, Asked asked) {
    Curve airC = stored(store, asked, "air/temperature");
    Curve rhPct = stored(store, asked, "air/humidity");
    List<Air> air = new ArrayList<>();
    int next = 0;
    for (int index = 0; index < airC.size(); index++) {
      long atMs = airC.atMs(index);
      while (next < rhPct.size() && rhPct.atMs(next) <= atMs) {
        next++;
      }
      if (next > 0 && atMs - rhPct.atMs(next - 1) <= TOGETHER_MS) {
        double humidPct = Math.min(100, Math.max(0, rhPct.value(next - 1)));
        air.add(
            new Air(
                Instant.ofEpochMilli(atMs),
                VapourPressure.deficitKpa(airC.value(index), humidPct)));
      }
    }
    return air;
  }

  /** Light that fell on the bench meanwhile, mol/m2 a day; empty where a fifth of it is unknown. */
  static OptionalDouble lightPerDay(Store store, Asked asked, DryDown dryDown) {
    Asked then = new Asked(asked.bench(), dryDown.from(), dryDown.to().plusMillis(1));
    Curve light = stored(store, then, "light");
    LightSum sum = LightSum.NONE;
    for (int index = 0; index < light.size(); index++) {
      double umol = Math.max(0, Math.min(5000, light.value(index)));
      Instant at = Instant.ofEpochMilli(light.atMs(index));
      sum = sum.plus(new LightSum.LightAt(at, umol), LIGHT_GAP);
    }
    Duration seen =
        light.size() == 0
            ? Duration.ZERO
            : Duration.ofMillis(light.atMs(light.size() - 1) - light.atMs(0)).minus(sum.missed());
    double hours = seen.toMillis() / 3.6e6;
    return hours >= KNOWN_LIGHT_PART * dryDown.hours()
        ? OptionalDouble.of(sum.molPerM2() / hours * 24)
        : OptionalDouble.empty();
  }

  /** A table for a terminal. */
  public static String table(Store store, Asked asked, List<DryDown> dryDowns) {
    StringBuilder table =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "%-20s %8s %9s %9s %9s %9s %9s %10s%n",
                "from",
                "hours",
                "start g",
                "lost g",
                "g/h",
                "g/h kPa",
                "half h",
                "mol/m2 day"));
    for (DryDown each : dryDowns) {
      table.append(
          String.format(
              Locale.ROOT,
              "%-20s %8.1f %9.1f %9.1f %9.2f %9s %9s %10s%n",
              each.from(),
              each.hours(),
              each.points().get(0).grossG(),
              each.lostG(),
              each.rateGPerH(),
              each.loss()
                  .map(loss -> String.format(Locale.ROOT, "%.2f", loss.gPerHPerKpa()))
                  .orElse("unknown"),
              each.halfLifeH().map(h -> String.format(Locale.ROOT, "%.1f", h)).orElse("unclear"),
              light(lightPerDay(store, asked, each))));
    }
    return table.toString();
  }
}
