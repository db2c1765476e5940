package dev.cupwarden.app.loop;

import dev.cupwarden.app.clock.SteadyClock;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Where a loop begins: the bench as the journal left it. A pass that a crash cut off counts as
 * given, and the first tick waits for one soak, so that the cup's weight can show what arrived.
 *
 * @param cutOff whether the last stop cut a pass off
 * @param settle how long the first tick waits
 * @param standing the loop's own alerts that were raised before and not cleared
 */
record LoopStart(
    Tick tick,
    BenchState state,
    SteadyClock clock,
    boolean cutOff,
    Duration settle,
    List<Journal.ToldAlert> standing) {
  /** The longest span of the board's on-time caps. */
  private static final Duration CAPS_REACH = Duration.ofDays(1);

  /** For sentences about orders that change it: who gives them knows no path of this machine. */
  private static final String BENCH_FILE = "bench file";

  private static final Logger log = LoggerFactory.getLogger(LoopStart.class);

  /**
   * Reads the journal, puts down that the program starts, and tells the board what ran lately.
   *
   * @throws JournalException when the journal cannot be read or written, or its state not be
   *     understood
   * @throws SetupException when a cup's lines are out of order
   */
  static LoopStart of(BenchLoop.Parts parts) throws JournalException, SetupException {
    Journal journal = parts.journal();
    Tick tick = tick(parts.bench(), parts.benchText());
    Optional<Journal.Restored> restored = journal.restored();
    BenchState state = tick.fresh();
    List<String> doubts = List.of();
    if (restored.isPresent()) {
      Optional<String> benchBefore = journal.lastBench();
      ChangesKept changes =
          ChangesKept.over(
              new BenchText(BENCH_FILE, parts.benchText()),
              restored.get().state().orders().changes());
      if (!changes.kept().isEmpty()) {
        tick = tick(changes.text().read(), changes.text().yaml());
      }
      BenchFileMerge merge = new BenchFileMerge(tick.bench(), tick.fresh());
      state = tick.fit(merge.of(restored.get().state(), benchBefore));
      state = state.with(state.orders().changes(changes.kept()));
      doubts = Stream.concat(changes.words().stream(), merge.doubts().stream()).toList();
    }
    boolean watchOnly = parts.mode().watches(journal.watchOnly());
    state = state.with(state.orders().watchOnly(watchOnly));
    SteadyClock clock =
        restored.isPresent()
            ? SteadyClock.after(restored.get().at(), parts.time())
            : SteadyClock.fresh(parts.time());
    Instant now = clock.now();
    if (clock.trusted()) {
      journal.refuseUnfitOrders(parts.time().wall());
    }
    List<Journal.Intent> cutOff =
        journal.start(
            new Journal.Start(now, tick.text().orElseThrow().yaml(), state, parts.version()));
    for (String doubt : doubts) {
      log.warn("{}", doubt);
      journal.note(JournalEvent.change(now, "bench-file", doubt));
    }
    for (Journal.Intent intent : cutOff) {
      log.warn(
          "The pass of {} mL to {} was cut off by the last stop; it counts as given.",
          String.format(Locale.ROOT, "%.1f", intent.pass().plainMl() + intent.pass().feedMl()),
          intent.pass().cup());
    }
    for (Journal.Ran ran : journal.ranSince(clock.now().minus(CAPS_REACH))) {
      Duration ago = Duration.between(ran.at(), clock.now());
      parts.hardware().ranBefore(ago.isNegative() ? Duration.ZERO : ago, ran.ml());
    }
    // A moment more than the soak: the start's own time may be a clock's least step late.
    Duration settle =
        cutOff.isEmpty() ? Duration.ZERO : tick.bench().watering().soak().plusSeconds(1);
    return new LoopStart(tick, state, clock, !cutOff.isEmpty(), settle, standing(journal, state));
  }

  private static Tick tick(Bench bench, String text) throws SetupException {
    return new Tick(bench, Optional.of(new BenchText(BENCH_FILE, text)), Tick.Rounds.ONE_A_TICK);
  }

  /** What the core itself has raised it clears itself. */
  private static List<Journal.ToldAlert> standing(Journal journal, BenchState state)
      throws JournalException {
    List<Journal.ToldAlert> standing = new ArrayList<>();
    for (AlertCode code : OwnAlerts.CODES) {
      if (!state.alerts().containsKey(code.word())) {
        journal
            .lastAlert(code.word())
            .filter(told -> !told.notice().state().equals("cleared"))
            .ifPresent(standing::add);
      }
    }
    return standing;
  }
}
