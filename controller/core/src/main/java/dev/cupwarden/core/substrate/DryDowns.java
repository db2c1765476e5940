package dev.cupwarden.core.substrate;

import dev.cupwarden.core.climate.DryingPower;
import dev.cupwarden.core.climate.VpdTime;
import dev.cupwarden.core.substrate.DryDownSegments.Break;
import dev.cupwarden.core.substrate.DryDownSegments.Kind;
import dev.cupwarden.core.substrate.DryDownSegments.Segment;
import dev.cupwarden.core.substrate.DryDownSegments.Weighing;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The dry-downs of a cup, cut from its weighings and fitted: the only place where that is done. */
public final class DryDowns {
  /** Water still drains and spreads (our choice). */
  private static final Duration SETTLING = Duration.ofMinutes(30);

  /** A dry-down that is first seen later after its watering has lost its beginning (our choice). */
  private static final Duration LATEST_START = Duration.ofHours(1);

  private static final Duration LONGEST_GAP = Duration.ofHours(6);

  /** Shorter ones tell of the hour, not of the cup (our choice). */
  private static final double SHORTEST_H = 6;

  /** Water that no dose tells of; noise and drying back are less (our choice). */
  private static final double BY_HAND_G = 3;

  /** A fall of this part between two weighings is no drying: lifted, or cut back (our choice). */
  private static final double FALLEN_PART = 0.15;

  /** Air that was read this long ago says nothing of now. */
  private static final Duration AIR_GAP = Duration.ofHours(1);

  /** So much of the whole days must have been in known air. */
  private static final double KNOWN_AIR_PART = 0.9;

  private static final double DAY_H = 24;

  private DryDowns() {}

  /** Air about the cup at a moment: vapour pressure deficit, kPa, 0 or more. */
  public record Air(Instant at, double vpdKpa) {}

  /**
   * Those of at least six hours, oldest first.
   *
   * @param weighings in order of time
   * @param doses when water was given, in any order
   * @param air in order of time; none where it was not measured
   */
  public static List<DryDown> of(List<Weighing> weighings, List<Instant> doses, List<Air> air) {
    List<Break> breaks = new ArrayList<>(jumps(weighings));
    doses.forEach(at -> breaks.add(new Break(at, Kind.DOSE)));
    List<DryDown> found = new ArrayList<>();
    for (Segment segment : DryDownSegments.cut(weighings, breaks, SETTLING, LONGEST_GAP)) {
      List<DryDownPoint> points = segment.points();
      if (points.get(points.size() - 1).time() >= SHORTEST_H) {
        found.add(
            new DryDown(
                segment.from(),
                segment.after().filter(last -> begins(last, segment.from())).isPresent(),
                points,
                ExponentialFit.fit(points),
                loss(segment.from(), points, air)));
      }
    }
    return List.copyOf(found);
  }

  /** Whether that watering is what it begins with: no later beginning was cut off. */
  private static boolean begins(Break last, Instant from) {
    boolean watered = last.kind() == Kind.DOSE || last.kind() == Kind.HAND_WATERED;
    return watered && !from.isAfter(last.at().plus(LATEST_START));
  }

  /** A rise is a person's can, unless the cup had been lifted before or nobody saw when it came. */
  private static List<Break> jumps(List<Weighing> weighings) {
    List<Break> jumps = new ArrayList<>();
    boolean fallen = false;
    for (int i = 1; i < weighings.size(); i++) {
      double beforeG = weighings.get(i - 1).grossG();
      double riseG = weighings.get(i).grossG() - beforeG;
      Instant at = weighings.get(i).at();
      if (-riseG > FALLEN_PART * beforeG) {
        jumps.add(new Break(at, Kind.TARE_CHANGED));
        fallen = true;
      } else if (riseG > BY_HAND_G) {
        boolean seen = !at.isAfter(weighings.get(i - 1).at().plus(LATEST_START));
        jumps.add(new Break(at, seen && !fallen ? Kind.HAND_WATERED : Kind.RETURNED));
        fallen = false;
      }
    }
    return jumps;
  }

  private static Optional<DryDown.Loss> loss(
      Instant from, List<DryDownPoint> points, List<Air> air) {
    int days = (int) (points.get(points.size() - 1).time() / DAY_H);
    if (days < 1) {
      return Optional.empty();
    }
    double lostG = points.get(0).grossG() - massAt(points, days * DAY_H);
    Instant to = from.plus(Duration.ofDays(days));
    return meanKpa(air, from, to).map(kpa -> new DryDown.Loss(days, lostG / (days * DAY_H) / kpa));
  }

  private static double massAt(List<DryDownPoint> points, double hours) {
    int next = 1;
    while (points.get(next).time() < hours) {
      next++;
    }
    DryDownPoint early = points.get(next - 1);
    DryDownPoint late = points.get(next);
    double part = (hours - early.time()) / (late.time() - early.time());
    return early.grossG() + part * (late.grossG() - early.grossG());
  }

  /** Mean drying power of the air between them; empty where too little of it is known. */
  private static Optional<Double> meanKpa(List<Air> air, Instant from, Instant to) {
    VpdTime time = VpdTime.NONE;
    Instant first = to;
    for (Air each : air) {
      if (!each.at().isBefore(from) && !each.at().isAfter(to)) {
        first = each.at().isBefore(first) ? each.at() : first;
        time = time.plus(new VpdTime.DeficitAt(each.at(), each.vpdKpa()), AIR_GAP);
      }
    }
    Instant last = time.last().map(VpdTime.DeficitAt::at).orElse(first);
    double hours = Elapsed.hours(first, last) - time.missed().toMillis() / 3.6e6;
    boolean known = hours >= KNOWN_AIR_PART * Elapsed.hours(from, to);
    return known ? Optional.of(DryingPower.kpa(time.kPaH() / hours)) : Optional.empty();
  }
}
