package dev.cupwarden.board;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.Vessel;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/**
 * How long the pump may run: at one go, within an hour, within a day. The last net below all limits
 * of the decision; it knows nothing of why the pump runs.
 */
final class OnTimeCaps {
  /**
   * The longest on-times.
   *
   * @param perPass at one go
   * @param perHour within any hour
   * @param perDay within any 24 h
   */
  record Caps(Duration perPass, Duration perHour, Duration perDay) {
    /**
     * Caps of a bench, from what could be needed at most. Our choice: a pass half as long again as
     * the bench's largest, an hour that refills every cup (two fifths of all vessels' volume), a
     * day that flushes every cup (their whole volume); never less than three passes; the grower's
     * own where they are tighter.
     */
    static Caps of(Bench bench, BoardWiring wiring) {
      double mlPerS = wiring.pump().mlPerS();
      double passS = 1.5 * bench.watering().passMl() / mlPerS + 1.0;
      double vesselsMl =
          bench.cups().values().stream()
              .mapToDouble(cup -> volumeMl(bench.vessels().get(cup.vessel())))
              .sum();
      double hourS = Math.max(0.4 * vesselsMl / mlPerS, 3 * passS);
      double dayS = Math.max(vesselsMl / mlPerS, 3 * passS);
      BoardWiring.OnTimes own = wiring.pump().longest();
      return new Caps(
          tighter(seconds(passS), own.perPass()),
          tighter(seconds(Math.min(hourS, 3600)), own.perHour()),
          tighter(seconds(dayS), own.perDay()));
    }

    private static Duration tighter(Duration usual, Optional<Duration> own) {
      return own.filter(wanted -> wanted.compareTo(usual) < 0).orElse(usual);
    }

    /** A truncated cone: π·h/12·(D² + D·d + d²). */
    private static double volumeMl(Vessel vessel) {
      double top = vessel.topMm() / 10;
      double base = vessel.baseMm() / 10;
      return Math.PI * vessel.depthMm() / 120 * (top * top + top * base + base * base);
    }

    private static Duration seconds(double s) {
      return Duration.ofNanos(Math.round(s * 1e9));
    }
  }

  private record Run(long endedNanos, long onNanos) {}

  private final Caps caps;
  private final Deque<Run> lastDay = new ArrayDeque<>();

  OnTimeCaps(Caps caps) {
    this.caps = caps;
  }

  /** The longest at one go. */
  Duration perPass() {
    return caps.perPass();
  }

  /** Why the pump may not run for that long now, if it may not. */
  synchronized Optional<String> refuses(long nowNanos, Duration wanted) {
    if (wanted.compareTo(caps.perPass()) > 0) {
      return Optional.of(sentence("at one go", wanted, caps.perPass()));
    }
    Duration hour = within(nowNanos, Duration.ofHours(1)).plus(wanted);
    if (hour.compareTo(caps.perHour()) > 0) {
      return Optional.of(sentence("within an hour", hour, caps.perHour()));
    }
    Duration day = within(nowNanos, Duration.ofDays(1)).plus(wanted);
    if (day.compareTo(caps.perDay()) > 0) {
      return Optional.of(sentence("within a day", day, caps.perDay()));
    }
    return Optional.empty();
  }

  private static String sentence(String span, Duration would, Duration cap) {
    return "The pump would run for %.1f s %s; the board allows %.1f s."
        .formatted(would.toNanos() * 1e-9, span, cap.toNanos() * 1e-9);
  }

  private Duration within(long nowNanos, Duration span) {
    long since = nowNanos - span.toNanos();
    long sum = 0;
    for (Run run : lastDay) {
      if (run.endedNanos > since) {
        sum += run.onNanos;
      }
    }
    return Duration.ofNanos(sum);
  }

  /** The pump ran for that long until then. */
  synchronized void ran(long endedNanos, Duration on) {
    long dayAgo = endedNanos - Duration.ofDays(1).toNanos();
    while (!lastDay.isEmpty() && lastDay.peekFirst().endedNanos <= dayAgo) {
      lastDay.removeFirst();
    }
    lastDay.addLast(new Run(endedNanos, on.toNanos()));
  }
}
