package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Catalogue;

/**
 * What stops the pump for every cup, in words: an alert of the whole bench stands for as long as it
 * does, and says what still runs and what a person must do.
 */
final class TellPump {
  private TellPump() {}

  static void tell(BenchDraft draft, Conditions to) {
    for (AlertCode code : JudgeConditions.CUP_LATCHES) {
      latch(draft, code, to);
    }
    leak(draft, to);
    to.when(AlertCode.WATCH_ONLY, null, draft.seen.watchOnly(), 1.0, 0.0);
  }

  /** Whatever stops the pump stops every cup: the whole bench is told, whichever cup showed it. */
  private static void latch(BenchDraft draft, AlertCode code, Conditions to) {
    Latch latch = draft.pump.latch();
    if (latch == null || !latch.is(code)) {
      to.when(code, null, false, 0.0, 0.0);
      return;
    }
    PumpTrial trial = draft.pump.watch().trial();
    boolean failed = PumpTrial.mayEnd(latch) && trial.failedAt() != null;
    String whatToDo =
        failed
            ? Catalogue.say("alert." + code.word() + ".trial-failed", trial.cup())
            : Catalogue.say("alert." + code.word() + ".pump");
    to.add(
        new Condition(code, null, Condition.Level.ON, latch.value(), latch.threshold(), whatToDo));
  }

  private static void leak(BenchDraft draft, Conditions to) {
    LeakWatch leak = draft.pump.watch().leak();
    if (leak.stage() == LeakWatch.Stage.SOUND) {
      to.when(AlertCode.LEAK, null, false, 0.0, 0.0);
      return;
    }
    double value = 1.0;
    double threshold = 0.0;
    if (leak.onRescue()) {
      value = leak.givenMl();
      threshold = leak.mostMl();
    } else if (leak.stage() == LeakWatch.Stage.UNEXPLAINED) {
      value = leak.balance().unexplainedMl() + draft.pump.trayMl();
      threshold = draft.bench.trayMl();
    }
    // While it is wet it is told again by the hour.
    boolean wet = draft.seen.leak() || leak.stage() == LeakWatch.Stage.WET;
    to.add(
        new Condition(AlertCode.LEAK, null, Condition.Level.ON, value, threshold, words(draft))
            .severe(wet ? 1 : 0));
  }

  /** What changes from tick to tick stands in the alert's figures; words change with the stage. */
  private static String words(BenchDraft draft) {
    LeakWatch leak = draft.pump.watch().leak();
    return switch (leak.stage()) {
      case UNREAD -> Catalogue.say("alert.leak.unread");
      case DRYING -> Catalogue.say("alert.leak.drying");
      case RESCUE ->
          Catalogue.say(
              leak.leftMl() < Limits.LEAST_PASS_ML ? "alert.leak.rescue-over" : "alert.leak.rescue",
              leak.mostMl());
      case UNEXPLAINED -> Catalogue.say("alert.leak.unexplained");
      case PERSON -> Catalogue.say("alert.leak.again");
      default ->
          Catalogue.say(draft.seen.leakUnread() ? "alert.leak.wet-unread" : "alert.leak.wet");
    };
  }
}
