package dev.cupwarden.app.journal;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * A moment of the past, decided anew: from the last start before it, through everything that was
 * seen since. The same input gives the same decisions, so what is found is what was decided then.
 */
public final class DecisionReplay {
  private DecisionReplay() {}

  /**
   * A cup as it stood.
   *
   * @param at the last tick not after the moment asked for
   * @param passes what was put out for it in that tick
   */
  public record Moment(Instant at, CupStatus cup, List<AllowedPass> passes) {}

  /**
   * That cup at that moment.
   *
   * @throws JournalException where the journal does not reach so far back, holds no such cup, or
   *     what it holds cannot be decided by this program
   */
  public static Moment of(JournalExport journal, String cup, Instant when) throws JournalException {
    JournalExport.StartEntry start =
        journal
            .lastStartBy(when)
            .orElseThrow(() -> unanswerable("begins after " + when + "; see journal starts"));
    try {
      BenchText text =
          BenchText.of(
              "the journal's bench", journal.benchAt(start).getBytes(StandardCharsets.UTF_8));
      Tick tick = new Tick(text.read(), Optional.of(text), Tick.Rounds.ONE_A_TICK);
      BenchState state = journal.stateAt(start);
      List<AllowedPass> passes = List.of();
      List<JournalExport.Seen> part = journal.seen(start, start.firstTick());
      while (!part.isEmpty()) {
        for (JournalExport.Seen each : part) {
          Observation seen =
              ObservationReader.read(
                  each.line(), state.cups().keySet(), tick.bench().tanks().keySet());
          if (seen.at().isAfter(when)) {
            return moment(tick, state, passes, cup, when);
          }
          Tick.Step step = tick.step(state, seen);
          tick = step.tick();
          state = step.state();
          passes = step.passes();
        }
        part = journal.seen(start, part.get(part.size() - 1).tick() + 1);
      }
      return moment(tick, state, passes, cup, when);
    } catch (SetupException | LineRefused other) {
      throw new JournalException(
          JournalException.Trouble.UNUSABLE,
          "journal: what it holds from "
              + start.at()
              + " on cannot be decided anew by this version",
          other);
    }
  }

  private static Moment moment(
      Tick tick, BenchState state, List<AllowedPass> passes, String cup, Instant when)
      throws JournalException {
    if (state.at() == null) {
      throw unanswerable("has seen nothing by " + when);
    }
    Optional<CupStatus> status =
        tick.standing(state).statuses().stream().filter(each -> each.cup().equals(cup)).findFirst();
    if (status.isEmpty()) {
      throw unanswerable(
          "knows no cup "
              + cup
              + " at "
              + when
              + "; it has "
              + String.join(", ", state.cups().keySet()));
    }
    return new Moment(
        state.at(), status.get(), passes.stream().filter(pass -> pass.cup().equals(cup)).toList());
  }

  private static JournalException unanswerable(String how) {
    return new JournalException(JournalException.Trouble.UNUSABLE, "journal: it " + how, null);
  }
}
