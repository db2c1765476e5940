package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.feeding.FeedSwitch;
import dev.cupwarden.core.limits.HoseLimit;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.state.HoseState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.watering.Cause;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** What a person should know of the bench as a whole: pump, room, sensors and tanks. */
final class JudgeBench {
  /** What came out of the hose is told for so long: our choice. */
  private static final double TOLD_FOR_H = 24.0;

  private JudgeBench() {}

  static void judge(BenchDraft draft, boolean passesPutOut, Conditions to) {
    room(draft, to);
    JudgeTanks.judge(draft, to);
    tankSuits(draft, passesPutOut, to);
  }

  private static void room(BenchDraft draft, Conditions to) {
    TellPump.tell(draft, to);
    JudgePumpDrift.tell(draft, to);
    JudgeWarmth.judge(draft, to);
    JudgeOutdoors.judge(draft, to);
    double trayMl = draft.bench.trayMl();
    to.above(AlertCode.TRAY_FULL, null, draft.pump.trayMl(), trayMl, trayMl);
    double silentH =
        Math.max(
            Math.max(
                AirState.silentH(draft.air.airC(), draft.at),
                AirState.silentH(draft.air.rhPct(), draft.at)),
            Math.max(
                AirState.silentH(draft.air.rootC(), draft.at),
                AirState.silentH(draft.air.light(), draft.at)));
    silentH = Math.max(silentH, AirState.silentH(draft.air.outdoorC(), draft.at));
    for (TankState tank : draft.tanks.values()) {
      silentH = Math.max(silentH, JudgeConditions.hours(tank.readAt(), draft.at));
    }
    double deadH = AirState.DEAD_AFTER.toMinutes() / 60.0;
    to.above(AlertCode.SENSOR_DEAD, null, silentH, deadH, deadH);
  }

  /** What is in the tanks suits no due cup now, or will not be what the plan wants. */
  private static void tankSuits(BenchDraft draft, boolean passesPutOut, Conditions to) {
    FeedSwitch change = change(draft);
    if (change != null && change.days() > 0) {
      to.add(ofChange(draft, AlertCode.FEED_CHANGE, change));
    } else {
      to.when(AlertCode.FEED_CHANGE, null, false, 0.0, 0.0);
    }
    if (draft.unsuited) {
      String fill =
          draft.supply().hasPlain() ? Catalogue.say("alert.tank-unsuited.plain-out") : null;
      to.add(new Condition(AlertCode.TANK_UNSUITED, null, Condition.Level.ON, 1.0, 0.0, fill));
      return;
    }
    List<String> onFeed = onFeed(draft);
    if (!onFeed.isEmpty()) {
      String fill = Catalogue.say("alert.tank-unsuited.on-feed", String.join(", ", onFeed));
      to.add(
          new Condition(
              AlertCode.TANK_UNSUITED, null, Condition.Level.ON, onFeed.size(), 0.0, fill));
      return;
    }
    Condition carried = outOfHose(draft);
    if (carried != null) {
      to.add(carried);
      return;
    }
    if (change != null && change.days() <= 0) {
      to.add(ofChange(draft, AlertCode.TANK_UNSUITED, change));
    } else if (passesPutOut) {
      to.when(AlertCode.TANK_UNSUITED, null, false, 0.0, 0.0);
    }
  }

  /** Cups past their dry line that get feed, since no plain water is to be had. */
  private static List<String> onFeed(BenchDraft draft) {
    List<String> names = new ArrayList<>(0);
    for (CupDraft cup : draft.cups.values()) {
      if (cup.refill() != null && cup.refill().cause() == Cause.FED_RESCUE) {
        names.add(cup.name());
      }
    }
    return names;
  }

  /** What a cup got out of the shared hose within the last day and should not have; or null. */
  private static Condition outOfHose(BenchDraft draft) {
    HoseState.Carried told = draft.hose.told;
    if (told == null || JudgeConditions.hours(told.at(), draft.at) > TOLD_FOR_H) {
      return null;
    }
    String what = Catalogue.say("alert.tank-unsuited.carried", told.cup(), told.nMgPerL());
    return new Condition(
        AlertCode.TANK_UNSUITED,
        null,
        Condition.Level.ON,
        told.nMgPerL(),
        HoseLimit.MOST_N_MG_PER_L,
        what);
  }

  /** The change of feed that is near or overdue and that no tank is ready for; null for none. */
  private static FeedSwitch change(BenchDraft draft) {
    if (draft.bench.feeding().plan().isEmpty()) {
      return null;
    }
    return FeedSwitch.due(
            draft.bench.feeding().plan(),
            draft.today(),
            feedTanks(draft).values().stream().map(TankState::feed).collect(Collectors.toSet()))
        .orElse(null);
  }

  private static SortedMap<String, TankState> feedTanks(BenchDraft draft) {
    SortedMap<String, TankState> feeds = new TreeMap<>(draft.tanks);
    feeds.values().removeIf(TankState::plain);
    return feeds;
  }

  private static Condition ofChange(BenchDraft draft, AlertCode code, FeedSwitch change) {
    SortedMap<String, TankState> feeds = feedTanks(draft);
    String first = feeds.firstKey();
    double sizeMl = draft.bench.tanks().get(first).sizeMl();
    Feed label = draft.bench.feeds().get(change.feed());
    return new Condition(
        code,
        null,
        Condition.Level.ON,
        change.days(),
        FeedSwitch.AHEAD_DAYS,
        change.sentence(label, sizeMl, feeds.get(first).strength()));
  }
}
