package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.climate.MouldHours;
import dev.cupwarden.core.estimate.Cover;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZonedDateTime;

/**
 * The air around leaves: the room's, for cups that stand in it, and what is to be done for those
 * under a cover. There the air is saturated by design, and the room's sensor does not see it.
 */
final class JudgeAir {
  /** For so long a cover is lifted each day: the grower's rule. */
  private static final Duration LIFTED_FOR = Duration.ofHours(1);

  /** A cover that was lifted for its hour is back by then: our choice. */
  private static final double OFF_FOR_LONG_H = 12.0;

  /** Use is learned over days; before, it may be that of the open cup. Our choice. */
  private static final double KNOWN_AFTER_D = 4.0;

  private JudgeAir() {}

  static void judge(BenchDraft draft, CupDraft cup, Conditions to) {
    mould(draft, cup, to);
    lift(draft, cup, to);
  }

  /** What has no leaves yet has nothing for grey mould to begin on. */
  private static void mould(BenchDraft draft, CupDraft cup, Conditions to) {
    MouldHours mould = draft.air.mould();
    boolean heard =
        mould.last().isPresent()
            && Duration.between(mould.last().get(), draft.at).compareTo(AirState.DEAD_AFTER) <= 0;
    boolean open = !cup.presence.cover().on() && !cup.presence.away();
    boolean exposed = open && heard && leafy(cup);
    double hours = mould.lasted().toMinutes() / 60.0;
    Condition.Level level =
        exposed && mould.alarm()
            ? Condition.Level.ON
            : exposed && hours > 0.0 ? Condition.Level.BETWEEN : Condition.Level.OFF;
    double most = MouldHours.ALARM_AFTER.toHours();
    to.add(AlertCode.MOULD_WEATHER, cup.name(), level, hours, most);
  }

  private static boolean leafy(CupDraft cup) {
    return cup.setup.stage().rooted()
        || cup.frame.plant().filter(plant -> plant.shootsFirst()).isPresent();
  }

  /**
   * Once a day; at any time where a cover seems to be forgotten, on the bench or in what is told.
   */
  private static void lift(BenchDraft draft, CupDraft cup, Conditions to) {
    Cover cover = cup.presence.cover();
    boolean on = cover.on() && !cup.presence.away();
    if (on && seemsOff(draft.at, cup)) {
      String what = Catalogue.say("alert.lift-cover.off");
      to.add(
          new Condition(AlertCode.LIFT_COVER, cup.name(), Condition.Level.ON, 1.0, 0.0, what)
              .severe(1));
    } else {
      to.when(AlertCode.LIFT_COVER, cup.name(), on && liftNow(draft, cover), 1.0, 0.0);
    }
  }

  /** Its scale shows no cover, or it dries as an open cup does. */
  private static boolean seemsOff(Instant at, CupDraft cup) {
    Cover cover = cup.presence.cover();
    if (cover.offSince() != null) {
      return Elapsed.hours(cover.offSince(), at) > OFF_FOR_LONG_H;
    }
    boolean knownBySelf =
        cover.toldAt() == null || Elapsed.hours(cover.toldAt(), at) / 24.0 > KNOWN_AFTER_D;
    return knownBySelf
        && cup.plant.use().known()
        && cup.plant.use().lostPerDayG() > 24.0 * cup.predictedGPerH();
  }

  /** In its hour; where nobody looks in that hour, at the first look after it. */
  private static boolean liftNow(BenchDraft draft, Cover cover) {
    LocalTime liftAt = draft.bench.climate().covers().liftAt().orElse(null);
    if (liftAt == null) {
      return false;
    }
    ZonedDateTime now = draft.at.atZone(draft.zone());
    ZonedDateTime today = now.with(liftAt);
    Instant lift = (today.isAfter(now) ? today.minusDays(1) : today).toInstant();
    boolean since = cover.toldAt() == null || !cover.toldAt().isAfter(lift);
    boolean first = draft.before.at() != null && draft.before.at().isBefore(lift);
    return since && (first || draft.at.isBefore(lift.plus(LIFTED_FOR)));
  }
}
