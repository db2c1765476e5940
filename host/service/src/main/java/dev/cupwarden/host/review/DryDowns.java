package dev.cupwarden.host.review;

import dev.cupwarden.core.substrate.DryDownFit;
import dev.cupwarden.core.substrate.DryDownPoint;
import dev.cupwarden.core.substrate.DryDownSegments;
import dev.cupwarden.core.substrate.DryDownSegments.Break;
import dev.cupwarden.core.substrate.DryDownSegments.Kind;
import dev.cupwarden.core.substrate.DryDownSegments.Weighing;
import dev.cupwarden.core.substrate.ExponentialFit;
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
import java.util.Optional;

/** The dry-downs of a cup, each from a watering to the next, with the curve through it. */
public final class DryDowns {
  private static final Duration SETTLING = Duration.ofMinutes(30);
  private static final Duration LONGEST_GAP = Duration.ofHours(6);
  private static final double SHORTEST_H = 6;

  /** A step up by more than this between two weighings is water that no dose tells of. */
  private static final double HAND_STEP_G = 5;

  private DryDowns() {}

  /**
   * One dry-down.
   *
   * @param points hours since its first weighing, gross grams
   */
  public record DryDown(Instant from, List<DryDownPoint> points, DryDownFit fit) {
    public DryDown {
      points = List.copyOf(points);
    }

    public double hours() {
      return points.get(points.size() - 1).time();
    }

    public double lostG() {
      return points.get(0).grossG() - points.get(points.size() - 1).grossG();
    }

    public double rateGPerH() {
      return lostG() / hours();
    }

    /** Hours in which half of what can dry has dried, where the weighings tell. */
    public Optional<Double> halfLifeH() {
      return fit instanceof DryDownFit.Identified known
          ? Optional.of(known.curve().halfLife())
          : Optional.empty();
    }
  }

  /**
   * Those of at least six hours, oldest first.
   *
   * @throws HostException if no weight of the cup is stored
   */
  public static List<DryDown> of(Store store, Asked asked, String cup) {
    Curve curve = store.readings().between(asked.bench(), cup + "/mass", asked.from(), asked.to());
    if (curve.size() == 0) {
      throw new HostException(
          "There are no weights of cup " + cup + " on bench " + asked.bench() + " in that time.");
    }
    List<Weighing> weighings = new ArrayList<>();
    List<Break> breaks = new ArrayList<>();
    for (int index = 0; index < curve.size(); index++) {
      Instant at = Instant.ofEpochMilli(curve.atMs(index));
      weighings.add(new Weighing(at, curve.value(index)));
      if (index > 0 && curve.value(index) - curve.value(index - 1) > HAND_STEP_G) {
        breaks.add(new Break(at, Kind.HAND_WATERED));
      }
    }
    for (EventRow dose : EventTables.oldestFirst(store, asked, "dose")) {
      if (cup.equals(dose.cup())) {
        breaks.add(new Break(dose.at(), Kind.DOSE));
      }
    }
    return fitted(weighings, breaks);
  }

  private static List<DryDown> fitted(List<Weighing> weighings, List<Break> breaks) {
    List<DryDown> found = new ArrayList<>();
    int next = 0;
    for (List<DryDownPoint> points :
        DryDownSegments.cut(weighings, breaks, SETTLING, LONGEST_GAP)) {
      next = firstOf(points.get(0), weighings, next);
      Instant from = weighings.get(next).at();
      next += points.size();
      if (points.get(points.size() - 1).time() >= SHORTEST_H) {
        found.add(new DryDown(from, points, ExponentialFit.fit(points)));
      }
    }
    return found;
  }

  /** Segments come in the order of time and whole, so each begins at or after where one ended. */
  private static int firstOf(DryDownPoint point, List<Weighing> weighings, int start) {
    int index = start;
    while (weighings.get(index).grossG() != point.grossG()) {
      index++;
    }
    return index;
  }

  /** A table for a terminal. */
  public static String table(List<DryDown> dryDowns) {
    StringBuilder table =
        new StringBuilder(
            String.format(
                Locale.ROOT,
                "%-20s %8s %9s %9s %9s %9s%n",
                "from",
                "hours",
                "start g",
                "lost g",
                "g/h",
                "half h"));
    for (DryDown each : dryDowns) {
      table.append(
          String.format(
              Locale.ROOT,
              "%-20s %8.1f %9.1f %9.1f %9.2f %9s%n",
              each.from(),
              each.hours(),
              each.points().get(0).grossG(),
              each.lostG(),
              each.rateGPerH(),
              each.halfLifeH().map(h -> String.format(Locale.ROOT, "%.1f", h)).orElse("unclear")));
    }
    return table.toString();
  }
}
