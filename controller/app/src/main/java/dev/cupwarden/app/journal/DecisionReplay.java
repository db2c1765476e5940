package dev.cupwarden.app.journal;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.state.BenchState;
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
            .orElseThrow(
                () ->
                    JournalException.unanswerable("begins after " + when + "; see journal starts"));
    TickReplay replay = new TickReplay(journal, start);
    boolean more = true;
    while (more) {
      more = replay.next(when);
    }
    BenchState state = replay.state();
    if (state.at() == null) {
      throw JournalException.unanswerable("has seen nothing by " + when);
    }
    Optional<CupStatus> status =
        replay.tick().standing(state).statuses().stream()
            .filter(each -> each.cup().equals(cup))
            .findFirst();
    if (status.isEmpty()) {
      throw JournalException.unanswerable(
          "knows no cup "
              + cup
              + " at "
              + when
              + "; it has "
              + String.join(", ", state.cups().keySet()));
    }
    List<AllowedPass> passes = replay.step() == null ? List.of() : replay.step().passes();
    return new Moment(
        state.at(), status.get(), passes.stream().filter(pass -> pass.cup().equals(cup)).toList());
  }
}
