package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.climate.VapourPressure;
import dev.cupwarden.core.estimate.LightKnown;
import dev.cupwarden.core.estimate.SwapDetector;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.season.HardeningWeather;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.state.AirState;
import dev.cupwarden.core.state.BenchOrders;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.CupsCompared;
import dev.cupwarden.core.state.DoneActs;
import dev.cupwarden.core.state.PumpState;
import dev.cupwarden.core.state.TankState;
import dev.cupwarden.core.units.MiddleValue;
import dev.cupwarden.core.watering.BlindRation;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Rises;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** A bench's next state while one tick works it out; it never leaves the tick. */
final class BenchDraft {
  /** Orders older than so many are forgotten; repeats come soon or never. */
  private static final int ORDER_IDS_KEPT = 1000;

  /** Label's interval where the bench names no feed. */
  private static final Duration USUAL_INTERVAL = Duration.ofDays(14);

  private static final int SEVERAL_CUPS = 3;
  private static final double LEAST_PUMP_PART = 0.75;
  private static final double MOST_PUMP_PART = 1.1;

  final Bench bench;
  final Observation seen;
  final Instant at;

  /** The same by the clock at the bench's place. */
  private final LocalDateTime local;

  final BenchState before;

  /** By name; walked many times a tick, so linked. */
  final Map<String, CupDraft> cups;

  final SortedMap<String, TankState> tanks;
  final List<Receipt> receipts = new ArrayList<>();
  final List<String> orderIds;
  final List<Order.SetHold> newHolds = new ArrayList<>();

  /** Those that stand, with what a person puts off now. */
  SortedMap<String, OpenAlert> alerts;

  AirState air;
  Hold hold;
  PumpState pump;
  List<SwapDetector.Step> steps;
  Instant rootsAt;
  Instant pumpOffSince;
  boolean unsuited;
  DoneActs done;
  private final double pumpSeen;
  private Optional<Boolean> unfed = Optional.empty();
  final HoseDraft hose;

  BenchDraft(Bench bench, BenchState before, Observation seen) {
    this.bench = bench;
    this.seen = seen;
    this.at = seen.at();
    this.local = LocalDateTime.ofInstant(at, zone());
    this.before = before;
    cups = new LinkedHashMap<>(2 * before.cups().size());
    before.cups().forEach((name, cup) -> cups.put(name, new CupDraft(cup)));
    tanks = new TreeMap<>(before.tanks());
    seen.tankMl()
        .forEach((name, ml) -> tanks.computeIfPresent(name, (n, tank) -> tank.read(ml, at)));
    orderIds = new ArrayList<>(before.orders().ids());
    air = before.air().plus(seen);
    Hold held = before.orders().hold();
    hold = held != null && held.holdsAt(at) ? held : null;
    done = before.orders().done();
    pump = before.pump().seen(seen.leak(), seen.boardFault());
    steps = before.compared().steps();
    rootsAt = before.compared().rootsAt();
    pumpOffSince = before.compared().pumpOffSince();
    alerts = before.alerts();
    pumpSeen = pumpSeen(cups.values());
    hose = new HoseDraft(bench, before, seen, pumpSeen);
  }

  /** As it stands, to try something on. */
  BenchDraft copy() {
    BenchDraft copy = new BenchDraft(bench, state(before.alerts(), List.of()), seen);
    for (CupDraft cup : copy.cups.values()) {
      cup.frame = cups.get(cup.name()).frame;
      cup.seeNow(at);
    }
    return copy;
  }

  /** Without an order the cups are those of before, and no name need be compared. */
  private SortedMap<String, CupState> cupStates() {
    if (seen.orders().isEmpty()) {
      SortedMap<String, CupState> states = new TreeMap<>(before.cups());
      states.replaceAll((name, was) -> cups.get(name).state());
      return states;
    }
    SortedMap<String, CupState> states = new TreeMap<>();
    cups.forEach((name, cup) -> states.put(name, cup.state()));
    return states;
  }

  /** Vapour pressure deficit of the room, kPa; NaN where temperature or humidity is unknown. */
  double vpdKpa() {
    return air.airC() == null || air.rhPct() == null
        ? Double.NaN
        : VapourPressure.deficitKpa(air.airC().value(), air.rhPct().value());
  }

  /** What is known of the light now; a sensor that fell silent for hours tells nothing. */
  LightKnown lightKnown() {
    boolean heard = AirState.silentH(air.light(), at) <= AirState.DEAD_AFTER.toHours();
    LocalTime clock = local.toLocalTime();
    double hour = clock.toSecondOfDay() / 3600.0;
    double measuredUmol = heard ? AirState.valueOf(air.light()) : Double.NaN;
    LightKnown known = new LightKnown(measuredUmol, Double.NaN, hour);
    return bench.climate().lamp().map(lamp -> known.byLamp(lamp.burnsAt(clock))).orElse(known);
  }

  /** What remains of this tick. */
  BenchState state(SortedMap<String, OpenAlert> alerts, List<AllowedPass> passes) {
    double passesMl = passes.stream().mapToDouble(AllowedPass::totalMl).sum();
    return new BenchState(
        at,
        seen.clockInDoubt(),
        Collections.unmodifiableSortedMap(cupStates()),
        air,
        Collections.unmodifiableSortedMap(tanks),
        passes.isEmpty() ? pump : pump.gave(passesMl, at),
        hose.state(),
        new CupsCompared(rootsAt, steps, pumpOffSince),
        new BenchOrders(
            hold, List.copyOf(orderIds), done, seen.watchOnly(), before.orders().changes()),
        alerts);
  }

  /**
   * What part of an order the pump truly gives, as the rises of several cups show it: one cup may
   * shed its water. Our choice of how far it is believed: 0.75 to 1.1.
   */
  double pumpPart() {
    return Double.isNaN(pumpSeen) ? 1.0 : pumpSeen;
  }

  /** NaN before several cups have shown it. */
  private static double pumpSeen(Collection<CupDraft> cups) {
    double[] parts = new double[cups.size()];
    int known = 0;
    for (CupDraft cup : cups) {
      Rises rises = cup.account.rises();
      if (rises.known()) {
        parts[known++] = rises.part();
      }
    }
    double middle = MiddleValue.of(parts, known, SEVERAL_CUPS);
    return Math.max(LEAST_PUMP_PART, Math.min(MOST_PUMP_PART, middle));
  }

  double rootC() {
    return AirState.valueOf(air.rootC());
  }

  /** What counts as the temperature of a cup's roots, °C; NaN where nothing was supplied. */
  double rootsC(CupDraft cup) {
    return bench.climate().rootsToldOf(cup.name()) ? air.rootsC(at) : airC();
  }

  /** Whether some cup may not be fed; asked once orders are taken, since no stage changes then. */
  boolean anyUnfed() {
    if (unfed.isEmpty()) {
      unfed = Optional.of(cups.values().stream().anyMatch(cup -> !cup.setup.stage().takesFeed()));
    }
    return unfed.get();
  }

  /** Whether a moisture probe tells of that cup, and no scale. */
  boolean byProbe(CupDraft cup) {
    boolean wired = cup.setup.wiring().probe().isPresent() && cup.setup.wiring().scale().isEmpty();
    return !seen.massG().containsKey(cup.name()) && (wired || seen.theta().containsKey(cup.name()));
  }

  /** Whether water can run out of its vessel. */
  boolean drains(CupDraft cup) {
    return bench.vessels().get(cup.setup.vessel()).holes();
  }

  double airC() {
    return AirState.valueOf(air.airC());
  }

  /** The plain tank with most in it and the feed tank that the plan wants, else any with feed. */
  Supply supply() {
    String wanted = wantedFeed();
    String plainTank = null;
    String feedTank = null;
    TankState plain = null;
    TankState feed = null;
    for (Map.Entry<String, TankState> entry : tanks.entrySet()) {
      TankState tank = entry.getValue();
      if (tank.plain()) {
        if (plain == null || tank.leftMl() > plain.leftMl()) {
          plain = tank;
          plainTank = entry.getKey();
        }
      } else if (feed == null || (tank.feed().equals(wanted) && !feed.feed().equals(wanted))) {
        feed = tank;
        feedTank = entry.getKey();
      }
    }
    return new Supply(
        plainTank,
        plain == null ? 0.0 : plain.leftMl(),
        feedTank,
        feed == null ? null : feed.feed(),
        feed == null ? 0.0 : feed.leftMl(),
        feed == null ? 0.0 : feed.strength());
  }

  /** Whether there is plain water for a pass. */
  boolean plainToBeHad() {
    Supply supply = supply();
    return supply.hasPlain() && supply.plainMl() >= Limits.LEAST_PASS_ML;
  }

  /**
   * What a pass of that cause draws from: on dry roots the weakest feed, where there is no plain.
   */
  Supply supply(Cause cause) {
    if (cause != Cause.FED_RESCUE) {
      return supply();
    }
    Supply weakest = supply();
    for (Map.Entry<String, TankState> entry : tanks.entrySet()) {
      TankState tank = entry.getValue();
      boolean gives = !tank.plain() && tank.leftMl() >= Limits.LEAST_PASS_ML;
      if (gives && (weakest.feed() == null || tank.strength() < weakest.feedStrength())) {
        weakest =
            new Supply(null, 0.0, entry.getKey(), tank.feed(), tank.leftMl(), tank.strength());
      }
    }
    return weakest;
  }

  /** Takes a pass out of the tanks that it comes from. */
  void draw(AllowedPass pass) {
    draw(pass.plain());
    draw(pass.feed());
  }

  private void draw(AllowedPass.Part part) {
    if (part.ml() > 0.0) {
      tanks.computeIfPresent(part.tank(), (name, tank) -> tank.less(part.ml()));
    }
  }

  /** The feed that the plan wants today; null without a plan. */
  String wantedFeed() {
    String wanted = null;
    for (var step : bench.feeding().plan()) {
      if (!step.from().isAfter(today())) {
        wanted = step.feed();
      }
    }
    return wanted;
  }

  /** What a person most likely gave who gave feed: the tank's, else the plan's, else any. */
  String feedByHand() {
    String feed = supply().feed() != null ? supply().feed() : wantedFeed();
    return feed != null || bench.feeds().isEmpty() ? feed : bench.feeds().firstKey();
  }

  /** What stands against carrying cups out now; none where nobody tells of the weather there. */
  Optional<HardeningWeather.Against> weatherAgainst() {
    return HardeningWeather.against(
        air.outdoorNowC(at), air.foretold().of(today()), bench.climate().heatC());
  }

  LocalDate today() {
    return local.toLocalDate();
  }

  /** The day at the bench's place. */
  LocalDate dayOf(Instant when) {
    return when.atZone(zone()).toLocalDate();
  }

  ZoneId zone() {
    return bench.place().map(Place::zone).orElse(ZoneOffset.UTC);
  }

  /** The label's interval of a feed; 14 days where there is none. */
  Duration interval(String feed) {
    Feed known = feed == null ? null : bench.feeds().get(feed);
    return known == null ? USUAL_INTERVAL : known.labelEvery();
  }

  /** The longest interval that any ledger of the bench looks back. */
  Duration ledgerSpan() {
    Duration feeds =
        bench.feeds().values().stream()
            .map(Feed::labelEvery)
            .max(Duration::compareTo)
            .orElse(USUAL_INTERVAL);
    return feeds.compareTo(BlindRation.LONGEST) > 0 ? feeds : BlindRation.LONGEST;
  }

  /** The cups of an order: the one that it names, or all. */
  List<CupDraft> cupsOf(Optional<String> named) throws OrderRefused {
    return named.isPresent() ? List.of(cup(named.get())) : List.copyOf(cups.values());
  }

  /**
   * The cup that an order names.
   *
   * @throws OrderRefused where it is not on the bench, naming those that are
   */
  CupDraft cup(String name) throws OrderRefused {
    CupDraft cup = cups.get(name);
    if (cup == null) {
      throw new OrderRefused(
          "cup: \"" + name + "\" is not on this bench; known: " + names(cups.keySet()));
    }
    return cup;
  }

  /** For a sentence that says what is known. */
  static String names(Set<String> names) {
    return names.isEmpty() ? "none" : String.join(", ", names);
  }

  boolean knowsOrder(String id) {
    return orderIds.contains(id);
  }

  void rememberOrder(String id) {
    orderIds.add(id);
    if (orderIds.size() > ORDER_IDS_KEPT) {
      orderIds.remove(0);
    }
  }
}
