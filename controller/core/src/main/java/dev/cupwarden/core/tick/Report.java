package dev.cupwarden.core.tick;

import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.LabelRate;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Decision;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.substrate.CupWater;
import dev.cupwarden.core.watering.OpenHours;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** What is told of each cup. Numbers are rounded here, once, to what a scale can tell. */
final class Report {
  private final double vpdKpa;
  private final OpenHours openHours;

  /**
   * @param vpdKpa the vapour pressure deficit that forecasts go by; NaN: unknown
   */
  Report(double vpdKpa, OpenHours openHours) {
    this.vpdKpa = vpdKpa;
    this.openHours = openHours;
  }

  SortedMap<String, Advice.CupReport> cups(BenchDraft draft) {
    SortedMap<String, Advice.CupReport> reports = new TreeMap<>();
    for (CupDraft cup : draft.cups.values()) {
      boolean known = cup.now.known();
      Optional<Forecast> forecast = cup.forecast(draft);
      reports.put(
          cup.name(),
          new Advice.CupReport(
              activity(draft, cup),
              known ? rounded(cup.weights.depletion(massG(cup)), 1e4) : null,
              known ? rounded(cup.depletionSd(), 1e4) : null,
              cup.now.rateKnown() ? rounded(cup.now.rateGPerH(), 1e3) : null,
              likely(draft, cup, forecast, cup.frame.lines().due()),
              likely(draft, cup, forecast, cup.frame.lines().dry()),
              cup.now.trusted(),
              cup.setup.stage(),
              rounded(cup.fed, 1e4),
              ForetellRooting.of(draft, cup),
              codes(cup)));
    }
    return reports;
  }

  /**
   * @param next what a person's dose would get
   * @param holding as {@link #told} says
   */
  CupStatus status(BenchDraft draft, CupDraft cup, NextPass next, List<CupStatus.Told> holding) {
    boolean known = cup.now.known();
    Optional<Forecast> forecast = cup.forecast(draft);
    CupActivity activity = activity(draft, cup);
    Instant dueAt = likely(draft, cup, forecast, cup.frame.lines().due());
    return new CupStatus(
        draft.at,
        cup.name(),
        cup.setup.plant(),
        cup.setup.stage(),
        activity,
        known ? rounded(massG(cup), 1e2) : null,
        known ? rounded(cup.weights.depletion(massG(cup)), 1e4) : null,
        known ? rounded(cup.depletionSd(), 1e4) : null,
        cup.now.rateKnown() ? rounded(cup.now.rateGPerH(), 1e3) : null,
        dueAt,
        likely(draft, cup, forecast, cup.frame.lines().dry()),
        time(draft, cup, forecast, cup.frame.lines().dry(), Forecast.Bound.EARLY),
        activity == CupActivity.AWAY || !cup.now.trusted() ? null : waterAt(draft, cup, dueAt),
        cup.now.trusted(),
        rounded(cup.fed, 1e4),
        rounded(cup.weights.capacityG(), 1e2),
        rounded(cup.weights.availableMl(), 1e2),
        rounded(cup.frame.lines().wet(), 1e4),
        rounded(cup.frame.lines().refill(), 1e4),
        rounded(cup.frame.lines().due(), 1e4),
        rounded(cup.frame.lines().dry(), 1e4),
        known ? rounded(next.roomMl(), 1e2) : null,
        known ? rounded(next.ml(), 1e2) : null,
        rounded(next.leastMl(), 1e2),
        nextFeed(draft, cup),
        ForetellRooting.of(draft, cup),
        littleAir(draft, cup),
        holding);
  }

  /** A capacity that is in doubt says less of its air than vessel and mix. */
  private static CupStatus.LittleAir littleAir(BenchDraft draft, CupDraft cup) {
    CupWater water = cup.frame.water();
    Capacity capacity = cup.weight.estimate().capacity();
    boolean weighed = capacity.learned() && !capacity.doubted();
    double drained =
        weighed
            ? (water.saturatedMl() - cup.capacityMl()) / water.volumeMl()
            : water.airAtCapacity();
    double safe = water.safeAir();
    if (!draft.drains(cup) || drained >= safe) {
      return null;
    }
    String key = weighed ? "advice.air.weighed" : "advice.air.foretold";
    double held = Math.max(0.0, drained);
    return new CupStatus.LittleAir(
        rounded(held, 1e4), rounded(safe, 1e4), Catalogue.say(key, 100.0 * held, 100.0 * safe));
  }

  private static CupStatus.NextFeed nextFeed(BenchDraft draft, CupDraft cup) {
    Feed feed = draft.bench.feeds().get(String.valueOf(draft.supply().feed()));
    if (feed == null || !cup.setup.stage().takesFeed()) {
      return null;
    }
    FeedStrength meant = StrengthMeant.meant(draft, cup);
    double strength = Math.min(meant.strength(), draft.bench.feeding().ceiling());
    double waterMsPerCm = draft.bench.waterEcMsPerCm();
    Reason by =
        new Reason(
            LimitCode.STRENGTH.word(),
            meant.value(),
            meant.threshold(),
            meant.by().unit(),
            meant.by().word());
    return new CupStatus.NextFeed(
        rounded(strength, 1e4),
        rounded(LabelRate.of(feed).elementsMg(strength, 1000.0).nMg(), 1e1),
        rounded(SaltBalance.ecMsPerCm(waterMsPerCm, feed, strength), 1e3),
        told(by));
  }

  /**
   * @param holding as {@link #told} says
   */
  Decision decision(BenchDraft draft, CupDraft cup, List<CupStatus.Told> holding) {
    boolean known = cup.now.known();
    return new Decision(
        activity(draft, cup),
        known ? rounded(massG(cup), 1e2) : null,
        known ? rounded(cup.weights.depletion(massG(cup)), 1e4) : null,
        cup.now.rateKnown() ? rounded(cup.now.rateGPerH(), 1e3) : null,
        Double.isNaN(vpdKpa) ? null : rounded(vpdKpa, 1e3),
        rounded(cup.fed, 1e4),
        rounded(cup.doses.salts().atCapacityMsPerCm(cup.capacityMl()), 1e3),
        holding);
  }

  /** What holds water or feed back, in words; making the sentences is most of a report's cost. */
  static List<CupStatus.Told> told(CupDraft cup) {
    List<Reason> holding = holding(cup);
    List<CupStatus.Told> told = new ArrayList<>(holding.size());
    for (Reason reason : holding) {
      told.add(told(reason));
    }
    return told;
  }

  private static CupStatus.Told told(Reason reason) {
    return new CupStatus.Told(
        reason.code(),
        reason.value(),
        reason.threshold(),
        reason.unit(),
        reason.detail(),
        Sentences.of(reason));
  }

  private static List<String> codes(CupDraft cup) {
    List<Reason> holding = holding(cup);
    if (holding.isEmpty()) {
      return List.of();
    }
    List<String> codes = new ArrayList<>(holding.size());
    for (Reason reason : holding) {
      if (!codes.contains(reason.code())) {
        codes.add(reason.code());
      }
    }
    return codes;
  }

  /** What holds water back; and what holds feed back, of a cup that wants water now. */
  private static List<Reason> holding(CupDraft cup) {
    Limits.Allowance allowance = cup.allowance;
    if (cup.wanted == null || allowance.feedHolding().isEmpty()) {
      return allowance.holding();
    }
    List<Reason> both = new ArrayList<>(allowance.holding());
    both.addAll(allowance.feedHolding());
    return both;
  }

  private static CupActivity activity(BenchDraft draft, CupDraft cup) {
    if (cup.presence.away() || outAsEachDay(draft, cup)) {
      return CupActivity.AWAY;
    }
    if (!cup.now.trusted()) {
      return CupActivity.UNTRUSTED;
    }
    if (held(draft, cup)) {
      return CupActivity.HELD;
    }
    double depletion = cup.weights.depletion(cup.now.massG());
    if (!cup.passes.isEmpty()) {
      return CupActivity.WATERING;
    }
    if (depletion < cup.frame.lines().wet()) {
      return CupActivity.WET;
    }
    if (cup.refill() != null) {
      Duration soak = cup.witness.soaking().soak(draft.bench.watering().soak());
      boolean soaking =
          cup.doses.lastPassAt() != null
              && Duration.between(cup.doses.lastPassAt(), draft.at).compareTo(soak) < 0;
      return soaking ? CupActivity.SOAKING : CupActivity.WATERING;
    }
    if (depletion > cup.frame.lines().dry()) {
      return CupActivity.DRY;
    }
    return depletion > cup.frame.lines().due() ? CupActivity.DUE : CupActivity.STEADY;
  }

  /** Off the bench as ever at this time of the day, though nobody said so. */
  private static boolean outAsEachDay(BenchDraft draft, CupDraft cup) {
    return cup.now.lifted()
        && cup.usuallyBackBy(draft).filter(backBy -> draft.at.isBefore(backBy)).isPresent();
  }

  /** While nobody weighs it, what was given since belongs to it as well. */
  private static double massG(CupDraft cup) {
    return cup.now.trusted() ? cup.now.massG() : cup.massG();
  }

  private static boolean held(BenchDraft draft, CupDraft cup) {
    return (draft.hold != null && draft.hold.holdsWaterAt(draft.at))
        || (cup.hold != null && cup.hold.holdsWaterAt(draft.at));
  }

  /** Due, in hours in which the bench waters, and once no hold stops it. */
  private Instant waterAt(BenchDraft draft, CupDraft cup, Instant dueAt) {
    if (dueAt == null) {
      return null;
    }
    Instant at = dueAt.isBefore(draft.at) ? draft.at : dueAt;
    for (Hold hold : Arrays.asList(draft.hold, cup.hold)) {
      if (hold != null && hold.holdsWaterAt(at)) {
        at = hold.until();
      }
    }
    return openHours.open(at, Duration.ZERO) ? at : openHours.nextOpening(at);
  }

  /** Of what was learned of it; null where that is nothing, or the line more than a year off. */
  private static Instant likely(
      BenchDraft draft, CupDraft cup, Optional<Forecast> forecast, double line) {
    return cup.now.rateKnown() ? time(draft, cup, forecast, line, Forecast.Bound.LIKELY) : null;
  }

  /** Null where its weight is not known, or the line is more than a year off. */
  private static Instant time(
      BenchDraft draft,
      CupDraft cup,
      Optional<Forecast> forecast,
      double line,
      Forecast.Bound bound) {
    double lineG = cup.weights.massG(line);
    return forecast.map(one -> one.timeOf(lineG, bound, draft.at)).orElse(null);
  }

  private static double rounded(double value, double steps) {
    return Math.rint(value * steps) / steps;
  }
}
