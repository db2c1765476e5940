package dev.cupwarden.app.journal;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/**
 * Ticks from one start of a journal to the next, decided anew from what was seen. The same input
 * gives the same decisions. Not for more than one thread.
 */
final class TickReplay {
  private final JournalExport journal;
  private final JournalExport.StartEntry start;
  private Tick tick;
  private final Deque<JournalExport.Seen> part = new ArrayDeque<>();
  private long nextTick;
  private BenchState before;
  private BenchState state;
  private Observation seen;
  private Tick.Step step;

  /**
   * At that start, before its first tick.
   *
   * @throws JournalException where what is there cannot be understood by this program
   */
  TickReplay(JournalExport journal, JournalExport.StartEntry start) throws JournalException {
    this.journal = journal;
    this.start = start;
    this.nextTick = start.firstTick();
    try {
      BenchText text =
          BenchText.of(
              "the journal's bench", journal.benchAt(start).getBytes(StandardCharsets.UTF_8));
      tick = new Tick(text.read(), Optional.of(text), Tick.Rounds.ONE_A_TICK);
    } catch (SetupException other) {
      throw unreadable(other);
    }
    state = journal.stateAt(start);
    before = state;
  }

  /**
   * Decides the next tick.
   *
   * @return false where there is none up to that moment
   */
  boolean next(Instant notAfter) throws JournalException {
    if (part.isEmpty()) {
      part.addAll(journal.seen(start, nextTick));
    }
    if (part.isEmpty()) {
      return false;
    }
    Observation next;
    try {
      next =
          ObservationReader.read(
              part.element().line(), state.cups().keySet(), tick.bench().tanks().keySet());
    } catch (LineRefused other) {
      throw unreadable(other);
    }
    if (next.at().isAfter(notAfter)) {
      return false;
    }
    nextTick = part.remove().tick() + 1;
    seen = next;
    before = state;
    step = tick.step(state, seen);
    tick = step.tick();
    state = step.state();
    return true;
  }

  /** Of the bench as it was after the last one. */
  Tick tick() {
    return tick;
  }

  /** What the last tick saw. */
  Observation seen() {
    return seen;
  }

  /** What it came to; null before the first. */
  Tick.Step step() {
    return step;
  }

  /** The state before it. */
  BenchState before() {
    return before;
  }

  /** The state after it. */
  BenchState state() {
    return state;
  }

  private JournalException unreadable(Exception why) {
    return new JournalException(
        JournalException.Trouble.UNUSABLE,
        "journal: what it holds from " + start.at() + " on cannot be decided anew by this version",
        why);
  }
}
