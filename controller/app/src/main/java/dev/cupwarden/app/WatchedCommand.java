package dev.cupwarden.app;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.WatchReplay;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.WatchedCup;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code journal watched}: what a watched bench would have been given beside what it got. */
@Command(
    name = "watched",
    description = {
      "Tells of a bench that was run with --watch what the program would have given each cup, what a"
          + " person gave it, and where the two differed. It speaks of the cups as the person keeps"
          + " them, and of as many weeks as the journal keeps what was seen."
    },
    mixinStandardHelpOptions = true)
final class WatchedCommand implements Callable<Integer> {
  private static final double HOURS_A_DAY = 24.0;

  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "FILE", description = "The journal.")
  private Path file;

  @Option(names = "--cup", paramLabel = "NAME", description = "Only that cup.")
  private String cup;

  @Option(
      names = "--since",
      paramLabel = "TIME",
      description = "Leave out what was before, such as 2027-02-14T00:00:00Z.")
  private Instant since = Instant.MIN;

  @Option(names = "--all", description = "Show waterings that did not differ, too.")
  private boolean all;

  @Override
  public Integer call() {
    return JournalCommand.read(spec, file, this::tell);
  }

  private void tell(JournalExport journal, PrintWriter out) throws JournalException {
    WatchReplay.of(journal, since, Optional.ofNullable(cup)).values().forEach(of -> tell(of, out));
  }

  private void tell(WatchReplay.Cup watched, PrintWriter out) {
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
