package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.limits.FrostLimit;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.setup.ClimateRules;
import dev.cupwarden.core.state.AirState;
import java.util.ArrayList;
import java.util.List;

/** Cold, frost and heat, of the roots by their thermometer and of the air. */
final class JudgeWarmth {
  private static final double HYSTERESIS_C = 1.0;

  private JudgeWarmth() {}

  static void judge(BenchDraft draft, Conditions to) {
    ClimateRules climate = draft.bench.climate();
    to.add(below(draft, AlertCode.COLD, climate.coldC()));
    to.add(JudgeOutdoors.frost(draft, frost(draft)));
    to.add(heat(draft));
  }

  /** What freezes in a drip end freezes for all, whatever is told of the roots. */
  private static Condition frost(BenchDraft draft) {
    Condition roots = below(draft, AlertCode.FROST, draft.bench.climate().frostC());
    double airC = draft.airC();
    if (airC <= FrostLimit.ICE_C) {
      String what = Catalogue.say("alert.frost.do.ice");
      return new Condition(AlertCode.FROST, null, Condition.Level.ON, airC, FrostLimit.ICE_C, what);
    }
    boolean nearIce = airC <= FrostLimit.ICE_C + HYSTERESIS_C;
    return nearIce && roots.level() == Condition.Level.OFF
        ? new Condition(AlertCode.FROST, null, Condition.Level.BETWEEN, airC, FrostLimit.ICE_C)
        : roots;
  }

  /** Of the coldest roots; if not all are so cold, those that are stand in its words. */
  private static Condition below(BenchDraft draft, AlertCode code, double leastC) {
    List<String> names = new ArrayList<>(0);
    double coldestC = Double.POSITIVE_INFINITY;
    for (CupDraft cup : draft.cups.values()) {
      double rootsC = draft.rootsC(cup);
      if (rootsC < leastC) {
        names.add(cup.name());
      }
      coldestC = Math.min(coldestC, Double.isNaN(rootsC) ? coldestC : rootsC);
    }
    Condition.Level level = Condition.Level.below(coldestC, leastC, leastC + HYSTERESIS_C);
    String some =
        names.isEmpty() || names.size() == draft.cups.size()
            ? null
            : Catalogue.say("alert." + code.word() + ".do.some", String.join(", ", names));
    // Where nobody tells of any cup there is no number to tell.
    double toldC = Double.isInfinite(coldestC) ? leastC : coldestC;
    return new Condition(code, null, level, toldC, leastC, some);
  }

  /** A mat that cooks roots is told before a warm room. */
  private static Condition heat(BenchDraft draft) {
    ClimateRules climate = draft.bench.climate();
    double overRootsC = orNone(AirState.valueOf(draft.air.rootC()) - climate.rootHeatC());
    double overAirC = orNone(draft.airC() - climate.heatC());
    double overC = Math.max(overRootsC, overAirC);
    Condition.Level level = Condition.Level.above(overC, 0.0, -HYSTERESIS_C);
    return overRootsC > 0.0
        ? new Condition(
            AlertCode.HEAT,
            null,
            level,
            draft.rootC(),
            climate.rootHeatC(),
            Catalogue.say("alert.heat.do.roots"))
        : new Condition(
            AlertCode.HEAT, null, level, climate.heatC() + finite(overAirC), climate.heatC());
  }

  private static double finite(double overC) {
    return Double.isInfinite(overC) ? 0.0 : overC;
  }

  private static double orNone(double overC) {
    return Double.isNaN(overC) ? Double.NEGATIVE_INFINITY : overC;
  }
}
