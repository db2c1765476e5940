package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.limits.Limits;
import java.util.Locale;

/**
 * What stops the pump for every cup, in words: an alert of the whole bench stands for as long as it
 * does, and says what still runs and what a person must do.
 */
final class TellPump {
  private static final String CLEAR = ", then clear it for the whole bench.";

  private TellPump() {}

  static void tell(BenchDraft draft, Conditions to) {
    for (String code : JudgeConditions.CUP_LATCHES) {
      latch(draft, code, to);
    }
    leak(draft, to);
  }

  /** Whatever stops the pump stops every cup: the whole bench is told, whichever cup showed it. */
  private static void latch(BenchDraft draft, String code, Conditions to) {
    Latch latch = draft.pumpLatch;
    if (latch == null || !latch.code().equals(code)) {
      to.when(code, null, false, 0.0, 0.0);
      return;
    }
    String whatToDo =
        switch (code) {
          case PumpTrial.ENDS ->
              (draft.trial.failedAt() == null
                      ? "Nothing came to several cups, so nothing is pumped to any but for a trial"
                          + " once a day"
                      : "Nothing is pumped to any cup: the last trial, to "
                          + draft.trial.cup()
                          + ", did not arrive either")
                  + ". Look at tank, hoses and pump"
                  + CLEAR;
          case "valve-leaking" ->
              "Nothing is pumped to any cup: water went to one to which none was sent. Close the"
                  + " tank's tap and look at the valves"
                  + CLEAR;
          default ->
              "Nothing is pumped to any cup: water runs by itself. Switch the pump's supply off and"
                  + " look at its driver"
                  + CLEAR;
        };
    to.add(
        new Condition(code, null, Condition.Level.ON, latch.value(), latch.threshold(), whatToDo));
  }

  private static void leak(BenchDraft draft, Conditions to) {
    LeakWatch leak = draft.leak;
    if (leak.stage() == LeakWatch.Stage.SOUND) {
      to.when("leak", null, false, 0.0, 0.0);
      return;
    }
    double value = 1.0;
    double threshold = 0.0;
    if (leak.onRescue()) {
      value = leak.givenMl();
      threshold = leak.mostMl();
    } else if (leak.stage() == LeakWatch.Stage.UNEXPLAINED) {
      value = leak.balance().unexplainedMl() + draft.trayMl;
      threshold = draft.bench.trayMl();
    }
    // While it is wet it is told again by the hour.
    boolean wet = draft.seen.leak() || leak.stage() == LeakWatch.Stage.WET;
    to.add(
        new Condition("leak", null, Condition.Level.ON, value, threshold, words(draft))
            .severe(wet ? 1 : 0));
  }

  /** What changes from tick to tick stands in the alert's figures; words change with the stage. */
  private static String words(BenchDraft draft) {
    LeakWatch leak = draft.leak;
    return switch (leak.stage()) {
      case UNREAD ->
          "The leak sensor cannot be read, so nothing is pumped: check its plug and wires.";
      case DRYING ->
          "The leak sensor is dry again, but nothing is pumped before it has been so for six hours."
              + " Find where the water came from"
              + CLEAR;
      case RESCUE -> onRescue(leak);
      case UNEXPLAINED ->
          "More water is missing than the tray has room for, so nothing is pumped: by tanks, passes"
              + " and weights it is not in the cups. Empty the tray, find where it went, water by"
              + " hand"
              + CLEAR;
      case PERSON ->
          "Wet again while a rescue was pumped or just after it: nothing is pumped any more. Find"
              + " where the water comes from, water by hand"
              + CLEAR;
      default ->
          (draft.seen.leakUnread()
                  ? "The leak sensor was wet and cannot be read: nothing is pumped. Check its wires,"
                  : "Nothing is pumped while the leak sensor is wet. Switch off at the wall if water"
                      + " is near the mains,")
              + " find where it comes from"
              + CLEAR;
    };
  }

  private static String onRescue(LeakWatch leak) {
    return leak.leftMl() < Limits.LEAST_PASS_ML
        ? "The bench was on rescue after a leak, and what that may take is used up ("
            + ml(leak.mostMl())
            + "): nothing is pumped any more. Water by hand, find where the water came from"
            + CLEAR
        : "The bench is on rescue after a leak: only cups past their dry line get water, one pass at"
            + " a time and "
            + ml(leak.mostMl())
            + " in all. Find where the water came from"
            + CLEAR;
  }

  private static String ml(double ml) {
    return String.format(Locale.ROOT, "%.0f mL", ml);
  }
}
