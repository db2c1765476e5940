package dev.cupwarden.core.substrate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * Cuts the weighings of a cup into undisturbed dry-downs: no curve may run across a watering, a
 * lift or a change of tare, as the mass jumps there for other reasons than drying.
 */
public final class DryDownSegments {
  private DryDownSegments() {}

  /** A weighing with its moment. */
  public record Weighing(Instant at, double grossG) {}

  /** What ends one dry-down; the next begins after it. */
  public enum Kind {
    DOSE,
    HAND_WATERED,
    /** Nothing counts until the next {@link #RETURNED}. */
    LIFTED,
    RETURNED,
    SWAPPED,
    TARE_CHANGED
  }

  /** Something that happened to a cup. */
  public record Break(Instant at, Kind kind) {}

  /**
   * One dry-down.
   *
   * @param from its first weighing
   * @param after what it follows; empty where a gap, or no weighing, comes before it
   * @param points hours since its first weighing
   */
  public record Segment(Instant from, Optional<Break> after, List<DryDownPoint> points) {}

  /**
   * The dry-downs, in order of time. Those of a single weighing are left out.
   *
   * @param weighings in any order
   * @param breaks in any order
   * @param settling weighings this soon after a break are left out, as water still moves
   * @param longestGap weighings further apart than this do not belong together
   */
  public static List<Segment> cut(
      List<Weighing> weighings, List<Break> breaks, Duration settling, Duration longestGap) {
    List<Weighing> ordered = weighings.stream().sorted(Comparator.comparing(Weighing::at)).toList();
    List<Break> cuts = breaks.stream().sorted(Comparator.comparing(Break::at)).toList();
    List<Segment> segments = new ArrayList<>();
    List<Weighing> current = new ArrayList<>();
    Instant settled = Instant.MIN;
    Optional<Break> last = Optional.empty();
    boolean away = false;
    int next = 0;
    for (Weighing weighing : ordered) {
      Optional<Break> broken = Optional.empty();
      while (next < cuts.size() && !cuts.get(next).at().isAfter(weighing.at())) {
        Break cut = cuts.get(next++);
        away = cut.kind() == Kind.LIFTED || (away && cut.kind() != Kind.RETURNED);
        settled = cut.at().plus(settling);
        broken = Optional.of(cut);
      }
      if (broken.isPresent() || gapBefore(weighing, current, longestGap)) {
        close(current, last, segments);
        current = new ArrayList<>();
        last = broken;
      }
      if (!away && !weighing.at().isBefore(settled)) {
        current.add(weighing);
      }
    }
    close(current, last, segments);
    return List.copyOf(segments);
  }

  private static boolean gapBefore(Weighing weighing, List<Weighing> current, Duration longestGap) {
    return !current.isEmpty()
        && Duration.between(current.get(current.size() - 1).at(), weighing.at())
                .compareTo(longestGap)
            > 0;
  }

  private static void close(List<Weighing> current, Optional<Break> after, List<Segment> segments) {
    if (current.size() > 1) {
      Instant start = current.get(0).at();
      segments.add(
          new Segment(
              start,
              after,
              current.stream()
                  .map(w -> new DryDownPoint(Elapsed.hours(start, w.at()), w.grossG()))
                  .toList()));
    }
  }
}
