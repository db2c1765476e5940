package dev.cupwarden.app.journal;

import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.WatchedCup;
import java.io.PrintWriter;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** What became of each watched cup, in sentences: one each watering, and one of them all. */
public final class WatchedText {
  private static final double HOURS_A_DAY = 24.0;

  private WatchedText() {}

  /**
   * Prints them cup by cup.
   *
   * @param all whether to tell of waterings that did not differ, too
   */
  public static void print(Collection<WatchReplay.Cup> cups, boolean all, PrintWriter out) {
    cups.forEach(cup -> tell(cup, all, out));
  }

  private static void tell(WatchReplay.Cup watched, boolean all, PrintWriter out) {
    CupStatus last = watched.last();
    line(out, "%s %s, %s", last.cup(), last.plant(), last.stage().word());
    for (WatchedCup.Watering one : watched.waterings()) {
      if (all || one.differs()) {
        line(out, "  %s", sentence(one, last));
      }
    }
    line(out, "  %s", sum(watched));
  }

  private static String sentence(WatchedCup.Watering one, CupStatus last) {
    List<String> parts = new ArrayList<>();
    if (one.would() != null) {
      parts.add(
          text(
              "%s: would have had %.0f mL %s (%s, depletion %.2f)",
              minute(one.would().at()),
              Math.max(0.0, one.would().roomMl()),
              one.would().wish().strength() > 0.0
                  ? text("at strength %.2f", one.would().wish().strength())
                  : "plain",
              one.would().wish().why(),
              one.would().depletion()));
    }
    if (one.handAt() == null) {
      parts.add(text("not watered since, depletion %.2f", last.depletion()));
    } else if (one.would() != null) {
      parts.add(
          text(
              "%.0f mL by hand %.1f h later",
              one.handMl(), Elapsed.hours(one.would().at(), one.handAt())));
    } else {
      parts.add(text("%s: %.0f mL by hand", minute(one.handAt()), one.handMl()));
      parts.add(unasked(one));
    }
    if (one.handAt() != null && Math.abs(one.moreMl()) >= 1.0) {
      parts.add(
          text(
              "%.0f mL %s than to its refill line",
              Math.abs(one.moreMl()), one.moreMl() > 0.0 ? "more" : "less"));
    }
    if (one.driest() > last.dry()) {
      parts.add(text("past its dry line at %.2f", one.driest()));
    }
    if (one.tooWet()) {
      parts.add("beyond its wet line once drained");
    }
    return String.join("; ", parts);
  }

  /** Why the program would not have watered then. */
  private static String unasked(WatchedCup.Watering one) {
    WatchedCup.Moment before = one.before();
    if (one.beside() == WatchedCup.Beside.HELD) {
      return text(
          "due at depletion %.2f, and held by %s",
          before.depletion(), String.join(", ", before.heldBy()));
    }
    return text("not due at depletion %.2f", before.depletion())
        + (before.dueAt() == null || !before.dueAt().isAfter(one.handAt())
            ? ""
            : text(
                ", likely due %.1f days later",
                Elapsed.hours(one.handAt(), before.dueAt()) / HOURS_A_DAY));
  }

  private static String sum(WatchReplay.Cup watched) {
    double wouldMl = 0.0;
    double handMl = 0.0;
    Map<WatchedCup.Beside, Integer> counts = new EnumMap<>(WatchedCup.Beside.class);
    for (WatchedCup.Watering one : watched.waterings()) {
      counts.merge(one.beside(), 1, Integer::sum);
      wouldMl += one.would() == null ? 0.0 : one.wouldMl();
      handMl += one.handMl();
    }
    List<String> parts = new ArrayList<>();
    counts.forEach((beside, count) -> parts.add(count + " " + called(beside)));
    return text(
        "%.1f days: %s",
        Elapsed.hours(watched.from(), watched.last().at()) / HOURS_A_DAY,
        parts.isEmpty()
            ? "not due, and not watered by hand"
            : text(
                "%s; would have had %.0f mL, had %.0f mL by hand",
                String.join(", ", parts), wouldMl, handMl));
  }

  private static String called(WatchedCup.Beside beside) {
    return switch (beside) {
      case ALIKE -> "within half a day of each other";
      case LATER -> "later by hand";
      case EARLIER -> "by hand before it was due";
      case HELD -> "by hand while a limit held";
      case NOT_GIVEN -> "not given";
    };
  }

  private static Instant minute(Instant at) {
    return at.truncatedTo(ChronoUnit.MINUTES);
  }

  private static void line(PrintWriter out, String format, Object... values) {
    out.println(text(format, values));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
