package dev.cupwarden.app.loop;

import dev.cupwarden.app.clock.SteadyClock;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Dose;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Gives what is already put down as an intent, and puts down what became of it. */
final class Pump {
  private static final Logger log = LoggerFactory.getLogger(Pump.class);

  private record Outcome(Journal.Intent intent, Instant at, Dose dose, String detail) {}

  private final BenchHardware hardware;
  private final Journal journal;
  private final SteadyClock clock;
  private final Queue<Outcome> left = new ArrayDeque<>();

  Pump(BenchHardware hardware, Journal journal, SteadyClock clock) {
    this.hardware = hardware;
    this.journal = journal;
    this.clock = clock;
  }

  /**
   * Gives the passes in their order. After one that failed the others of this tick are not begun:
   * what stopped it may stop or flood them too. All count as given all the same.
   *
   * @return what became of each
   * @throws JournalException when an outcome cannot be put down; then no further pass is begun, and
   *     what became of all is put down before the next tick
   */
  List<Dose> give(List<AllowedPass> passes, List<Journal.Intent> intents, BooleanSupplier stopping)
      throws JournalException {
    List<Dose> doses = new ArrayList<>();
    // What was written is not sure to be missed if it were lost: it is not given.
    String stopped = journal.unmarked().orElse(null);
    JournalException unwritten = null;
    for (int i = 0; i < intents.size(); i++) {
      if (stopping.getAsBoolean()) {
        stopped = "the controller was stopped";
      }
      Journal.Intent intent = intents.get(i);
      DoseOutcome outcome =
          stopped == null
              ? given(passes.get(i))
              : new DoseOutcome.Failed(0, 0, "Not begun: " + stopped);
      String detail = null;
      if (outcome instanceof DoseOutcome.Failed failed) {
        detail = failed.reason();
        stopped = stopped == null ? "an earlier pass failed" : stopped;
        log.warn("The pass to {} failed: {}", intent.pass().cup(), detail);
      }
      Dose dose = dose(intent.pass(), outcome);
      doses.add(dose);
      left.add(new Outcome(intent, clock.now(), dose, detail));
      if (unwritten == null) {
        try {
          putDownWhatIsLeft();
        } catch (JournalException e) {
          unwritten = e; // Not tried again for each: a lock is waited for, and a tick must end.
          stopped = "what became of an earlier pass cannot be put down";
        }
      }
    }
    if (unwritten != null) {
      throw unwritten;
    }
    return doses;
  }

  private DoseOutcome given(AllowedPass pass) {
    try {
      return hardware.give(pass);
    } catch (RuntimeException e) {
      hardware.allOff();
      log.error("A pass broke off", e);
      // How much ran is not known; the state counts all of it.
      return new DoseOutcome.Failed(pass.plainMl(), pass.feedMl(), "The driver broke off: " + e);
    }
  }

  private static Dose dose(Advice.Pass pass, DoseOutcome ran) {
    return new Dose(
        pass.cup(),
        ran.plainMl(),
        ran.feedMl(),
        pass.strength(),
        pass.why(),
        ran instanceof DoseOutcome.Given ? "given" : "failed");
  }

  /** Outcomes that could not be put down when they were known; before the next tick they must. */
  void putDownWhatIsLeft() throws JournalException {
    while (!left.isEmpty()) {
      Outcome outcome = left.peek();
      journal.outcome(outcome.intent(), outcome.at(), outcome.dose(), outcome.detail());
      left.remove();
    }
  }
}
