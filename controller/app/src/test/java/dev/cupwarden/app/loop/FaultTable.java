package dev.cupwarden.app.loop;

import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.core.messages.Event;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * Runs each of {@link FaultCases} on a bench of its own and says what came of it, as a table in
 * Markdown. All that stands in it is measured in the run.
 */
final class FaultTable {
  /** So long after the mending, and again after a person's clear, the alerts are waited for. */
  private static final Duration WATCHED = Duration.ofHours(4);

  private static final String HEAD =
      """
      # What happens when a part fails

      Made by a run: each fault is played on the simulated bench with the real drivers, loop and journal, in virtual time. The bench has
      one cup by each kind of part (A1 and A4 on NAU7802, A2 on HX711, A3 by a probe; v1 and v3 on a PCF8574, v2 and v4 on lines), ticks
      every 5 min, and was left dry, so that all cups are due when its window opens at 08:00. `-Dfailures.write=true` with
      `FaultTableTest` writes this page anew; a test holds it against the run.

      - *Bounds*: what the test holds each run to: all outputs off within (*at once*: nothing was on, or is between passes), mL beyond the
        order at most, and the alert that must come, within how long; others that may follow from it. They are our choice.
      - *Found in*: from the break to the first sign of it: the board's word at a reading (in the log), a pass or tick that failed, or an
        alert. Cups are judged by weight, so what only shows in water waits for water.
      - *Outputs*: whether anything was on between passes while it was broken; passes begun from the first sign (or, without one, from the break) to the mending, to the cup
        concerned (named) and to the others; and what came into cups beyond what was ordered, with the pump's own error (up to a tenth) in it.
      - *Alert*: what was raised, with the time from the break.
      - *Recovery*: from the mending until no alert of it stands: by itself, or after a person has cleared what is latched.
      - *Hardware*: the part that must answer where the program cannot; see [wiring](wiring.md).

      | fault | bounds | found in | outputs | alert | recovery | hardware |
      |---|---|---|---|---|---|---|
      """;

  private final Path folder;

  FaultTable(Path folder) {
    this.folder = folder;
  }

  /**
   * The run.
   *
   * @param page whole, as it is published
   * @param beyondBounds a sentence for each bound that a fault broke
   */
  record Run(String page, List<String> beyondBounds) {}

  Run run() throws Exception {
    StringBuilder text = new StringBuilder(HEAD);
    List<String> beyond = new ArrayList<>();
    int number = 0;
    for (FaultCases.Case fault : FaultCases.all()) {
      text.append(row(fault, folder.resolve("case-" + number++), beyond)).append('\n');
    }
    return new Run(text.toString(), List.copyOf(beyond));
  }

  /** One fault from its break to its end. */
  private static String row(FaultCases.Case fault, Path place, List<String> beyond)
      throws Exception {
    try (FaultBench bench = new FaultBench(place)) {
      bench.runFor(Duration.between(FaultBench.START, fault.breaksAt()));
      bench.breaksNow();
      Map<String, Double> waterBefore = bench.waterInMl();
      int passesBefore = bench.passes().size();
      fault.breaks().on(bench);
      Instant broken = bench.broken();
      long onBetweenTicks = 0;
      for (Duration left = fault.lasts(); left.compareTo(Duration.ZERO) > 0; ) {
        bench.runFor(bench.bench().tick());
        onBetweenTicks += bench.world().linesOn();
        left = left.minus(bench.bench().tick());
      }
      Instant mended = bench.now();
      Found found = Found.of(bench, broken);
      List<JournalExport.Pass> passes =
          since(bench, passesBefore).stream()
              .filter(pass -> !Instant.parse(pass.at()).isBefore(found.orElse(broken)))
              .toList();
      long beyondMl = beyondOrder(bench, waterBefore, passesBefore);
      Duration linesOff = onBetweenTicks == 0 ? bench.linesOff().orElse(null) : null;
      String outputs =
          off(linesOff)
              + told(fault, passes)
              + ", %s mL beyond order".formatted(beyondMl)
              + bench.notes().stream().map(note -> "; " + note).collect(Collectors.joining());
      List<Event> whileBroken = bench.events();
      FaultBounds bounds = FaultBounds.of(fault.name());
      fault.mends().on(bench);
      String recovery = recovery(bench, broken, mended);
      Map<String, Duration> told = alerts(whileBroken, bench.events(), broken);
      beyond.addAll(
          bounds.broken(fault.name(), new FaultBounds.Seen(linesOff, beyondMl, codes(told))));
      return "| %s | %s | %s | %s | %s | %s | %s |"
          .formatted(
              fault.name(),
              bounds.text(),
              found.text(broken),
              outputs,
              words(told),
              recovery,
              bounds.hardware());
    }
  }

  /** The first sign of a fault. */
  private record Found(Instant at, String by) {
    static Found of(FaultBench bench, Instant broken) throws Exception {
      Found first = new Found(null, "");
      for (FaultBench.Said said : bench.said()) {
        first = first.orEarlier(said.at(), broken, "reading of " + said.part());
      }
      for (FaultBench.Said sign : bench.signsOfHang()) {
        first = first.orEarlier(sign.at(), broken, sign.part());
      }
      for (Instant at : bench.badTicks()) {
        first = first.orEarlier(at, broken, "tick failed");
      }
      for (Event event : bench.events()) {
        String state = event.data().path("state").asText();
        if (event.kind().equals("dose") && !event.data().path("outcome").asText().equals("given")) {
          first =
              first.orEarlier(event.at(), broken, "pass " + event.data().path("outcome").asText());
        } else if (event.kind().equals("alert") && !state.equals("cleared")) {
          first = first.orEarlier(event.at(), broken, "alert");
        }
      }
      return first;
    }

    private Found orEarlier(Instant other, Instant broken, String how) {
      boolean earlier = !other.isBefore(broken) && (at == null || other.isBefore(at));
      return earlier ? new Found(other, how) : this;
    }

    Instant orElse(Instant other) {
      return at == null ? other : at;
    }

    String text(Instant broken) {
      return at == null ? "nothing seen" : since(broken, at) + " (" + by + ")";
    }
  }

  private static String told(FaultCases.Case fault, List<JournalExport.Pass> passes) {
    if (fault.cup() == null) {
      return "; passes: " + passes.size();
    }
    long own = passes.stream().filter(pass -> pass.cup().equals(fault.cup())).count();
    return "; passes: %s %d, others %d".formatted(fault.cup(), own, passes.size() - own);
  }

  private static List<JournalExport.Pass> since(FaultBench bench, int before) throws Exception {
    List<JournalExport.Pass> all = bench.passes();
    return bench.trouble().isPresent() ? all : all.subList(before, all.size());
  }

  private static long beyondOrder(FaultBench bench, Map<String, Double> before, int passesBefore)
      throws Exception {
    Map<String, Double> orderedMl = new TreeMap<>();
    for (JournalExport.Pass pass : since(bench, passesBefore)) {
      orderedMl.merge(pass.cup(), pass.plainMl() + pass.feedMl(), Double::sum);
    }
    double beyondMl = 0;
    for (Map.Entry<String, Double> now : bench.waterInMl().entrySet()) {
      double gotMl = now.getValue() - before.get(now.getKey());
      beyondMl += Math.max(0, gotMl - orderedMl.getOrDefault(now.getKey(), 0.0));
    }
    return Math.round(beyondMl);
  }

  private static String off(Duration linesOff) {
    return linesOff == null
        ? "ON"
        : linesOff.isZero() ? "off" : "off after %.1f s".formatted(linesOff.toMillis() / 1000.0);
  }

  /**
   * Each alert once, with the time from the break. The events of a stand-in journal are no longer
   * seen when it is mended.
   */
  private static Map<String, Duration> alerts(
      List<Event> whileBroken, List<Event> after, Instant broken) {
    Map<String, Duration> told = new LinkedHashMap<>();
    List<Event> all = new ArrayList<>(whileBroken);
    all.addAll(after);
    for (Event event : all) {
      if (raised(event) && !event.at().isBefore(broken)) {
        told.putIfAbsent(name(event), Duration.between(broken, event.at()));
      }
    }
    return told;
  }

  private static String words(Map<String, Duration> told) {
    return told.isEmpty()
        ? "none"
        : told.entrySet().stream()
            .map(alert -> "%s, %s".formatted(alert.getKey(), rounded(alert.getValue())))
            .collect(Collectors.joining("; "));
  }

  /** When each code was first told, of whichever cup. */
  private static Map<String, Duration> codes(Map<String, Duration> told) {
    Map<String, Duration> codes = new LinkedHashMap<>();
    told.forEach((name, after) -> codes.putIfAbsent(name.split("`")[1], after));
    return codes;
  }

  private static boolean raised(Event event) {
    return event.kind().equals("alert") && event.data().path("state").asText().equals("raised");
  }

  private static String name(Event event) {
    String code = "`" + event.data().path("code").asText() + "`";
    return event.cup() == null ? code : code + " " + event.cup();
  }

  /** Alerts raised since the break that still stand. */
  private static Collection<String> standing(FaultBench bench, Instant broken) throws Exception {
    Set<String> open = new LinkedHashSet<>();
    for (Event event : bench.events()) {
      if (raised(event) && !event.at().isBefore(broken)) {
        open.add(name(event));
      } else if (event.kind().equals("alert")
          && event.data().path("state").asText().equals("cleared")) {
        open.remove(name(event));
      }
    }
    return open;
  }

  private static String recovery(FaultBench bench, Instant broken, Instant mended)
      throws Exception {
    Duration alone = untilQuiet(bench, broken);
    if (alone != null) {
      return "by itself, " + rounded(Duration.between(mended, bench.now()));
    }
    String latched = String.join(", ", standing(bench, broken));
    bench.clear(null);
    for (String cup : bench.bench().cups().keySet()) {
      bench.clear(cup);
    }
    Duration cleared = untilQuiet(bench, broken);
    return cleared == null
        ? "stays after a person's clear: " + String.join(", ", standing(bench, broken))
        : "after a person's clear of %s, %s".formatted(latched, rounded(cleared));
  }

  /** Runs until no alert stands; null when some still does in the end. */
  private static Duration untilQuiet(FaultBench bench, Instant broken) throws Exception {
    Instant from = bench.now();
    do {
      bench.runFor(bench.bench().tick());
      if (standing(bench, broken).isEmpty()) {
        return Duration.between(from, bench.now());
      }
    } while (Duration.between(from, bench.now()).compareTo(WATCHED) < 0);
    return null;
  }

  private static String since(Instant from, Instant to) {
    return rounded(Duration.between(from, to));
  }

  static String rounded(Duration time) {
    double s = time.toMillis() / 1000.0;
    if (s < 120) {
      return String.format(Locale.ROOT, "%.0f s", s);
    }
    double min = s / 60;
    return min < 120
        ? String.format(Locale.ROOT, "%.0f min", min)
        : String.format(Locale.ROOT, "%.1f h", min / 60);
  }
}
