package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.messages.Catalogue;

/**
 * Whether the pump gives what is ordered, as the rises of several cups show it. What they show is
 * reckoned with at once; a person is told once it has been off for a week, since a worn tube goes
 * on wearing.
 */
final class JudgePumpDrift {
  /** Scales, soaking and drying within a pass make less than this of it: our choice. */
  private static final double OFF_PART = 0.05;

  /** Less, and it agrees again. */
  private static final double AGREES_PART = 0.04;

  private static final double A_WEEK_H = 7.0 * 24.0;

  private JudgePumpDrift() {}

  /** Looks at the cups' rises; not where a person pours. */
  static void look(BenchDraft draft) {
    double offPart = Math.abs(draft.pumpPart() - 1.0);
    if (offPart < AGREES_PART) {
      draft.pumpOffSince = null;
    } else if (draft.pumpOffSince == null && offPart >= OFF_PART) {
      draft.pumpOffSince = draft.at;
    }
  }

  static void tell(BenchDraft draft, Conditions to) {
    double part = draft.pumpPart();
    boolean longOff = JudgeConditions.hours(draft.pumpOffSince, draft.at) >= A_WEEK_H;
    String whatToDo = Catalogue.say("alert.pump-drift." + (part < 1.0 ? "less" : "more"));
    to.add(
        new Condition(
            AlertCode.PUMP_DRIFT,
            null,
            longOff ? Condition.Level.ON : Condition.Level.OFF,
            Math.abs(part - 1.0),
            OFF_PART,
            whatToDo));
  }
}
