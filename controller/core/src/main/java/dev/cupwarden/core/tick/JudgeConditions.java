package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Distrust;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.feeding.Flush;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.BlindRation;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.WetClock;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;

/**
 * What a person should know of, as it stands now: of each cup here, then of the bench by {@link
 * JudgeBench}.
 */
final class JudgeConditions {
  /** A flush that is needed again so soon is no cure: our choice. */
  private static final double HARD_WATER_D = 45.0;

  /** Cups that were said to be moved out by day are back by then: our choice. */
  private static final double AWAY_TOO_LONG_H = 14.0;

  /** A cup of which nobody said so has been forgotten by then: our choice. */
  private static final double FORGOTTEN_H = 6.0;

  /** A fan, a step on the floor, a leaf that touches is over by then: our choice. */
  private static final double NOISY_FOR_H = 1.5;

  /** One so noisy that its cup is not watered is told of sooner: our choice. */
  private static final double TOO_NOISY_FOR_H = 1.0;

  private static final double NEVER_READ_MIN = 30.0;

  /** A plug that is put back, a restart or a bad hour of a radio is over by then: our choice. */
  private static final double SILENT_FOR_MIN = 90.0;

  /** A cup that is due so soon cannot wait for that: our choice. */
  private static final Duration DUE_SOON = Duration.ofHours(6);

  static final List<AlertCode> CUP_LATCHES =
      List.of(
          AlertCode.DOSE_SHORT,
          AlertCode.VALVE_LEAKING,
          AlertCode.PUMP_RUNNING_ON,
          AlertCode.CUPS_SWAPPED);

  private static final List<DistrustCode> SCALE_FAULTS =
      Arrays.stream(DistrustCode.values()).filter(DistrustCode::scaleFailed).toList();

  Conditions judge(BenchDraft draft, boolean passesPutOut) {
    Conditions conditions = new Conditions(draft.alerts);
    for (CupDraft cup : draft.cups.values()) {
      water(draft, cup, conditions);
      JudgeAir.judge(draft, cup, conditions);
      capacity(draft, cup, conditions);
      scale(draft, cup, conditions);
      latches(cup, conditions);
    }
    JudgeBench.judge(draft, passesPutOut, conditions);
    return conditions;
  }

  /**
   * For a cup at its due line, in steps of 50 mL and five days: words that change from hour to hour
   * would be told each time.
   */
  private static String flush(BenchDraft draft, CupDraft cup, double saltMsPerCm) {
    if (!draft.drains(cup)) {
      return Catalogue.say("alert.salts-high.do.no-holes");
    }
    double waterMsPerCm = draft.bench.waterEcMsPerCm();
    double capacityMl = cup.capacityMl();
    double roomMl = cup.frame.lines().due() * cup.availableMl();
    double ml = Flush.ml(saltMsPerCm, waterMsPerCm, capacityMl, roomMl);
    if (ml <= 0.0) {
      return Catalogue.say("alert.salts-high.do.water", waterMsPerCm);
    }
    String what =
        Catalogue.say(
            "alert.salts-high.do.ml",
            50.0 * Math.ceil(ml / 50.0),
            Flush.reachesMsPerCm(waterMsPerCm));
    double days =
        Flush.lastsDays(waterMsPerCm, capacityMl, Math.max(1.0, cup.plant.use().lostPerDayG()));
    boolean hard = cup.plant.use().known() && days < HARD_WATER_D;
    return hard
        ? what + " " + Catalogue.say("alert.salts-high.do.hard", 5.0 * Math.ceil(days / 5.0))
        : what;
  }

  private static void water(BenchDraft draft, CupDraft cup, Conditions to) {
    double wetH = cup.watering.wet().hours(draft.at);
    wetness(draft, cup, to);
    rotWeather(cup, wetH >= WetClock.WARN_AFTER_H, to);
    JudgeDryness.judge(draft, cup, to);
    withoutPlain(draft, cup, to);
    double salt = cup.doses.salts().atCapacityMsPerCm(cup.capacityMl());
    double most = SaltBalance.MOST_MS_PER_CM;
    Condition.Level level = Condition.Level.above(salt, most, 0.9 * most);
    String flush = level == Condition.Level.OFF ? null : flush(draft, cup, salt);
    to.add(new Condition(AlertCode.SALTS_HIGH, cup.name(), level, salt, most, flush));
    JudgeRoots.judge(draft, cup, to);
    JudgeSeason.judge(draft, cup, to);
  }

  /** One of the two stands: the second takes the place of the first. */
  private static void wetness(BenchDraft draft, CupDraft cup, Conditions to) {
    double wetH = surelyWetH(draft, cup);
    double tooLongH = WetClock.HOLD_AFTER_H;
    boolean tooLong = wetH >= tooLongH;
    boolean stays = wetH >= WetClock.WARN_AFTER_H;
    Condition.Level still = wetH > 0.0 ? Condition.Level.BETWEEN : Condition.Level.OFF;
    Condition.Level tooLongNow = tooLong ? Condition.Level.ON : still;
    Condition.Level staysNow = tooLong ? Condition.Level.OFF : stays ? Condition.Level.ON : still;
    wet(draft, cup, AlertCode.STAYING_WET, staysNow, wetH, WetClock.WARN_AFTER_H, to);
    wet(draft, cup, AlertCode.WET_TOO_LONG, tooLongNow, wetH, tooLongH, to);
  }

  private static void wet(
      BenchDraft draft,
      CupDraft cup,
      AlertCode code,
      Condition.Level level,
      double wetH,
      double thresholdH,
      Conditions to) {
    boolean maybe = neverWeighed(draft, cup) && !cup.reckoned();
    to.add(
        new Condition(code, cup.name(), level, wetH, thresholdH),
        () -> maybe ? Catalogue.say("alert." + code.word() + ".unlearned") : null);
  }

  /**
   * What nobody knows is not told, but asked for by {@link #capacity}: of a capacity in doubt
   * whether it is right, and of one that was never learned how much air there is above the wet
   * line.
   */
  private static double surelyWetH(BenchDraft draft, CupDraft cup) {
    if (draft.drains(cup) && cup.weight.estimate().capacity().doubted()) {
      return 0.0;
    }
    WetClock wet = cup.watering.wet();
    return neverWeighed(draft, cup) ? wet.pastLineH(draft.at) : wet.hours(draft.at);
  }

  /** Neither by a person nor by a plateau, though it could be. */
  private static boolean neverWeighed(BenchDraft draft, CupDraft cup) {
    return draft.drains(cup) && !cup.weight.estimate().capacity().learned();
  }

  /**
   * A risk, told before anything dies; over once it has dried.
   *
   * @param told whether its wetness is told already, which is the same story
   */
  private static void rotWeather(CupDraft cup, boolean told, Conditions to) {
    Condition.Level level =
        cup.watering.lowAir().tooLong() && !told
            ? Condition.Level.ON
            : cup.watering.lowAir().needH() > 0.0 ? Condition.Level.BETWEEN : Condition.Level.OFF;
    to.add(
        AlertCode.ROT_WEATHER,
        cup.name(),
        level,
        cup.watering.lowAir().warmH(),
        cup.watering.lowAir().mostH());
  }

  /**
   * A drained weighing is asked for: at once of a capacity that is in doubt; of one that was never
   * learned, after a day in which the cup may have stood too wet; and of one that nobody has
   * learned for four weeks. A cup of which none was ever learned has the same four weeks from the
   * first look at it: a fresh bench has more to be told of.
   */
  private static void capacity(BenchDraft draft, CupDraft cup, Conditions to) {
    Capacity capacity = cup.weight.estimate().capacity();
    Instant since = capacity.learned() ? capacity.at() : cup.weight.weighing().knownSince();
    double days = hours(since, draft.at) / 24.0;
    if (cup.presence.away() || !draft.drains(cup)) {
      to.add(AlertCode.WEIGH_DRAINED, cup.name(), Condition.Level.BETWEEN, days, Capacity.OLD_DAYS);
    } else if (capacity.doubted()) {
      double beyondH = hours(capacity.doubtedAt(), draft.at) + WeighDrained.BEYOND_WET_H;
      weigh(draft, cup, "doubted", beyondH, WeighDrained.BEYOND_WET_H, to);
    } else if (mayBeWet(draft, cup) && !cup.now.trusted()) {
      to.add(AlertCode.WEIGH_DRAINED, cup.name(), Condition.Level.BETWEEN, days, Capacity.OLD_DAYS);
    } else if (mayBeWet(draft, cup)) {
      double wetH = cup.watering.wet().hours(draft.at);
      weigh(draft, cup, "unlearned", wetH, WetClock.WARN_AFTER_H, to);
    } else {
      to.when(
          AlertCode.WEIGH_DRAINED, cup.name(), days > Capacity.OLD_DAYS, days, Capacity.OLD_DAYS);
    }
  }

  /** Whether only a weighing can tell if it is too wet; on a scale in doubt it would not. */
  private static boolean mayBeWet(BenchDraft draft, CupDraft cup) {
    return neverWeighed(draft, cup)
        && surelyWetH(draft, cup) < WetClock.WARN_AFTER_H
        && cup.watering.wet().hours(draft.at) >= WetClock.WARN_AFTER_H;
  }

  /** Worse once nothing is watered for it. */
  private static void weigh(
      BenchDraft draft, CupDraft cup, String why, double h, double thresholdH, Conditions to) {
    boolean held = cup.watering.wet().hours(draft.at) >= WetClock.HOLD_AFTER_H;
    String say = "alert.weigh-drained." + why + (held ? ".held" : "");
    Condition asked =
        new Condition(
            AlertCode.WEIGH_DRAINED,
            cup.name(),
            Condition.Level.ON,
            h / 24.0,
            thresholdH / 24.0,
            Catalogue.say(say));
    to.add(asked.severe(held ? 2 : 1));
  }

  /** Past its dry line, with no plain water to be had, and no feed that its roots can take. */
  private static void withoutPlain(BenchDraft draft, CupDraft cup, Conditions to) {
    double dry = cup.frame.lines().dry();
    boolean thirsts =
        cup.now.known()
            && !cup.presence.away()
            && cup.depletion() > dry
            && !draft.plainToBeHad()
            && !(cup.setup.stage().takesFeed() && feedForDryRoots(draft));
    if (thirsts) {
      to.add(
          new Condition(
              AlertCode.TANK_EMPTY,
              cup.name(),
              Condition.Level.ON,
              cup.depletion(),
              dry,
              Catalogue.say("alert.tank-empty.past-dry")));
    } else {
      to.when(AlertCode.TANK_EMPTY, cup.name(), false, 0.0, 0.0);
    }
  }

  /** Whether some feed is weak enough for them. */
  private static boolean feedForDryRoots(BenchDraft draft) {
    double strength = draft.supply(Cause.FED_RESCUE).feedStrength();
    return strength > 0.0 && strength <= SharedHose.MOST_ON_DRY_ROOTS;
  }

  private static void scale(BenchDraft draft, CupDraft cup, Conditions to) {
    Distrust doubt = cup.now.distrust().orElse(null);
    boolean settling = cup.now.distrusted(DistrustCode.SETTLING);
    boolean neverRead = cup.now.distrusted(DistrustCode.NEVER_READ);
    for (DistrustCode fault : SCALE_FAULTS) {
      boolean so = cup.now.distrusted(fault) && !cup.now.lifted() && !cup.presence.away();
      if (so && fault.perhapsLoaded() && !cup.weight.distrustedSince().isBefore(draft.at)) {
        // A single spike is doubted, but nobody need be told of it.
        continue;
      }
      if (fault == DistrustCode.SCALE_NOISY) {
        noise(draft, cup, so, doubt, to);
      } else if (so && fault == DistrustCode.SCALE_SILENT) {
        silence(draft, cup, doubt, to);
      } else if (so) {
        to.add(
            fault.alert().orElseThrow(),
            cup.name(),
            Condition.Level.ON,
            doubt.value(),
            doubt.threshold());
      } else if (!settling && !neverRead) {
        to.when(fault.alert().orElseThrow(), cup.name(), false, 0.0, 0.0);
      }
    }
    double silentMin = neverRead ? 60.0 * hours(cup.plant.stageSince(), draft.at) : 0.0;
    if (silentMin > NEVER_READ_MIN) {
      to.above(AlertCode.SCALE_SILENT, cup.name(), silentMin, NEVER_READ_MIN, 0.0);
    }
    blind(draft, cup, to);
    Instant goneSince =
        cup.presence.away() ? cup.presence.awaySince() : cup.now.lifted() ? liftedSince(cup) : null;
    double longestH = cup.presence.away() ? AWAY_TOO_LONG_H : longestUntold(draft, cup, goneSince);
    double awayH = hours(goneSince, draft.at);
    to.above(AlertCode.CUP_AWAY, cup.name(), awayH, longestH, longestH);
  }

  /** Of a cup that goes out as ever it is told once it is later back than ever. */
  private static double longestUntold(BenchDraft draft, CupDraft cup, Instant goneSince) {
    return goneSince == null
        ? FORGOTTEN_H
        : cup.usuallyBackBy(draft).map(backBy -> hours(goneSince, backBy)).orElse(FORGOTTEN_H);
  }

  /** A short gap is no matter for a person, unless the cup will be due before they could come. */
  private static void silence(BenchDraft draft, CupDraft cup, Distrust doubt, Conditions to) {
    double dueG = cup.weights.massG(cup.frame.lines().due());
    boolean soon =
        cup.forecast(draft)
            .filter(
                dries ->
                    dries.before(draft.at.plus(DUE_SOON), dueG, Forecast.Bound.LIKELY, draft.at))
            .isPresent();
    boolean told = soon || doubt.value() >= SILENT_FOR_MIN;
    Condition.Level level = told ? Condition.Level.ON : Condition.Level.BETWEEN;
    to.add(
        new Condition(AlertCode.SCALE_SILENT, cup.name(), level, doubt.value(), doubt.threshold()),
        () -> draft.byProbe(cup) ? Catalogue.say("alert.scale-silent.probe") : null);
  }

  /** One that stood in another's place was not believed before, either. */
  private static Instant liftedSince(CupDraft cup) {
    return cup.weight.misplaced().handled()
        ? cup.weight.misplaced().steppedAt()
        : cup.weight.distrustedSince();
  }

  /** The alert stays while the cup is not weighed, and says so when it gets nothing more. */
  private static void blind(BenchDraft draft, CupDraft cup, Conditions to) {
    boolean told = cup.presence.away() || cup.now.lifted() || cup.weight.misplaced().on();
    boolean weighed = cup.weight.distrustedSince() == null || told;
    double blindH = hours(cup.weight.distrustedSince(), draft.at);
    double afterH = cup.blindAfter().toMinutes() / 60.0;
    Condition.Level level =
        weighed
            ? Condition.Level.OFF
            : blindH >= afterH ? Condition.Level.ON : Condition.Level.BETWEEN;
    if (level == Condition.Level.ON) {
      Condition blind = new Condition(AlertCode.BLIND_RATION, cup.name(), level, blindH, afterH);
      to.add(givesBlind(draft, cup, blind));
    } else {
      to.add(AlertCode.BLIND_RATION, cup.name(), level, blindH, afterH);
    }
  }

  private static Condition givesBlind(BenchDraft draft, CupDraft cup, Condition blind) {
    boolean rooted = cup.setup.stage().rooted();
    boolean gets =
        cup.blind()
            && cup.latch == null
            && (rooted
                ? cup.wateredBlind(draft.at)
                : BlindRation.on(cup.weight.distrustedSince(), draft.at));
    if (!gets) {
      return blind.saying(Catalogue.say("alert.blind-ration.nothing-more")).severe(1);
    }
    return rooted ? blind : blind.saying(Catalogue.say("alert.blind-ration.unrooted"));
  }

  /**
   * Noisy for hours; worse once it is so much that the cup is not watered. What drips from a cup
   * that drains is no noise, and a probe is as restless as a scale gone bad: of it only that it is
   * not believed is told.
   */
  private static void noise(
      BenchDraft draft, CupDraft cup, boolean disbelieved, Distrust doubt, Conditions to) {
    if (draft.byProbe(cup) && !disbelieved) {
      to.when(AlertCode.SCALE_NOISY, cup.name(), false, 0.0, 0.0);
      return;
    }
    boolean unread = Double.isNaN(cup.readG);
    if (unread || (doubt != null && !disbelieved) || cup.weight.estimate().draining()) {
      return;
    }
    double noisyH = cup.weight.estimate().noisyH();
    Condition.Level level =
        noisyH >= (disbelieved ? TOO_NOISY_FOR_H : NOISY_FOR_H)
            ? Condition.Level.ON
            : noisyH > 0.0 ? Condition.Level.BETWEEN : Condition.Level.OFF;
    double mostG = disbelieved ? doubt.threshold() : EstimateState.NOISY_SD_G;
    Condition noisy =
        new Condition(
            AlertCode.SCALE_NOISY, cup.name(), level, cup.weight.estimate().noiseG(), mostG);
    to.add(noisy.severe(disbelieved ? 1 : 0));
  }

  private static void latches(CupDraft cup, Conditions to) {
    Latch latch = cup.latch;
    for (AlertCode code : CUP_LATCHES) {
      boolean so = latch != null && latch.is(code);
      double value = so ? latch.value() : 0.0;
      double threshold = so ? latch.threshold() : 0.0;
      if (so && cup.weight.misplaced().on()) {
        to.add(swapped(cup, new Condition(code, cup.name(), Condition.Level.ON, value, threshold)));
      } else {
        to.when(code, cup.name(), so, value, threshold);
      }
    }
    Soaking soaking = cup.witness.soaking();
    to.when(
        AlertCode.SHEDS_WATER,
        cup.name(),
        soaking.sheds(),
        soaking.shedPasses(),
        Soaking.SHEDS_AFTER);
    if (cup.finding != null) {
      boolean over = cup.finding.verdict() == DoseCheck.Verdict.OVER;
      double most = DoseCheck.OVER_ABOVE * cup.finding.orderedMl();
      to.when(AlertCode.DOSE_OVER, cup.name(), over, cup.finding.riseG(), most);
    }
  }

  /** Told anew once it dries where it stands, and gets nothing. */
  private static Condition swapped(CupDraft cup, Condition condition) {
    boolean dries = condition.code() == AlertCode.CUPS_SWAPPED && JudgeDryness.nearDry(cup);
    return dries ? condition.severe(1) : condition;
  }

  /** Hours since then; 0 where there is no such time. */
  static double hours(Instant since, Instant at) {
    return since == null ? 0.0 : Elapsed.hours(since, at);
  }
}
