package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.feeding.Recipe;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.TankState;

/** What a person should know of each tank: that it runs low, that it is empty, that feed is old. */
final class JudgeTanks {
  /** So much of a tank is left in it when it is told of: our choice. */
  private static final double LOW_PART = 0.10;

  private static final double FILLED_AGAIN = 1.5;

  private JudgeTanks() {}

  static void judge(BenchDraft draft, Conditions to) {
    // An older journal may have one open for all tanks together; those of each take its place.
    to.when(AlertCode.TANK_LOW, null, false, 0.0, 0.0);
    to.when(AlertCode.FEED_OLD, null, false, 0.0, 0.0);
    draft.tanks.forEach(
        (name, tank) -> {
          empty(draft, name, tank, to);
          low(draft, name, tank, to);
          old(name, tank, draft, to);
        });
  }

  private static void old(String name, TankState tank, BenchDraft draft, Conditions to) {
    double oldD = tank.plain() ? 0.0 : JudgeConditions.hours(tank.mixedAt(), draft.at) / 24.0;
    Condition.Level old = oldD > Recipe.KEEPS_DAYS ? Condition.Level.ON : Condition.Level.OFF;
    to.add(new Condition(AlertCode.FEED_OLD, null, old, oldD, Recipe.KEEPS_DAYS).ofTank(name));
  }

  /** Holds less than one pass. */
  private static boolean isEmpty(BenchDraft draft, TankState tank) {
    return tank.leftMl() < draft.bench.watering().passMl();
  }

  private static void low(BenchDraft draft, String name, TankState tank, Conditions to) {
    double partMl = LOW_PART * draft.bench.tanks().get(name).sizeMl();
    double belowMl = draft.bench.belowFloatMl(name);
    double lowMl = belowMl + partMl;
    double leftMl = tank.leftMl();
    Condition.Level level =
        leftMl < lowMl
            ? Condition.Level.ON
            : leftMl > belowMl + FILLED_AGAIN * partMl
                ? Condition.Level.OFF
                : Condition.Level.BETWEEN;
    Condition low = new Condition(AlertCode.TANK_LOW, null, level, leftMl, lowMl).ofTank(name);
    boolean tellsThatItIsEmpty = isEmpty(draft, tank) && !isNeeded(draft, name, tank);
    if (tellsThatItIsEmpty) {
      to.add(low.severe(1), () -> Catalogue.say("alert.tank-low.empty", name));
    } else {
      to.add(low, () -> Catalogue.say("alert.tank-low.fill", name));
    }
  }

  private static void empty(BenchDraft draft, String name, TankState tank, Conditions to) {
    double passMl = draft.bench.watering().passMl();
    boolean so = isEmpty(draft, tank) && isNeeded(draft, name, tank);
    Condition.Level level =
        so
            ? Condition.Level.ON
            : isEmpty(draft, tank) ? Condition.Level.BETWEEN : Condition.Level.OFF;
    String without =
        tank.plain()
            ? "alert.tank-empty.plain"
            : draft.supply().hasPlain() ? "alert.tank-empty.feed" : "alert.tank-empty.only";
    to.add(
        new Condition(AlertCode.TANK_EMPTY, null, level, tank.leftMl(), passMl).ofTank(name),
        () -> Catalogue.say(without, name));
  }

  /** Whether no other tank serves in its place, and some cup wants what it held. */
  private static boolean isNeeded(BenchDraft draft, String name, TankState tank) {
    Supply supply = draft.supply();
    if (tank.plain()) {
      return !draft.cups.isEmpty() && supply.plainMl() < draft.bench.watering().passMl();
    }
    return name.equals(supply.feedTank())
        && draft.cups.values().stream().anyMatch(cup -> takesFeed(draft, cup, supply));
  }

  private static boolean takesFeed(BenchDraft draft, CupDraft cup, Supply supply) {
    RootStage stage = cup.setup.stage();
    return !supply.hasPlain()
        || (stage.takesFeed() && draft.bench.feeding().target().getOrDefault(stage, 0.0) > 0.0);
  }
}
