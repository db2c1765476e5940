package dev.cupwarden.core.limits;

import static dev.cupwarden.core.limits.Clause.cap;
import static dev.cupwarden.core.limits.Clause.veto;
import static dev.cupwarden.core.limits.LimitCode.Dose.LIFTS;
import static dev.cupwarden.core.limits.LimitCode.Dose.REFUSED;
import static dev.cupwarden.core.limits.LimitCode.Dose.WAITS;
import static dev.cupwarden.core.limits.LimitCode.Ends.BY_A_PERSON;
import static dev.cupwarden.core.limits.LimitCode.Ends.BY_ITSELF;
import static dev.cupwarden.core.limits.LimitCode.On.FEED;
import static dev.cupwarden.core.limits.LimitCode.On.WATER;
import static dev.cupwarden.core.watering.Cause.BLIND;
import static dev.cupwarden.core.watering.Cause.DUE;
import static dev.cupwarden.core.watering.Cause.FED_RESCUE;
import static dev.cupwarden.core.watering.Cause.FLUSH;
import static dev.cupwarden.core.watering.Cause.FORECAST;
import static dev.cupwarden.core.watering.Cause.ORDER;
import static dev.cupwarden.core.watering.Cause.RESCUE;

import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.Catalogue;
import dev.cupwarden.core.messages.Reason;
import dev.cupwarden.core.watering.Cause;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/**
 * Every veto and cap on a pass, in one table and in the order in which they are told: what each
 * limits, its unit, how a person's dose takes it, whether a person must act to end it, and its
 * clauses with what passes them. Its sentences stand in the {@link Catalogue}: {@code limit.CODE}
 * is what was found, {@code limit.CODE.name} its name for a person, {@code .clears} what ends it,
 * {@code .do} what to do about it.
 */
public enum LimitCode {
  HARDWARE(
      "hardware",
      WATER,
      "",
      REFUSED,
      BY_A_PERSON,
      veto(new HardwareLimit()).evenPastCups(),
      veto(new AfterLeakLimit()).evenPastCups().passedBy(RESCUE, FED_RESCUE),
      veto(new LeakyValveLimit()).passedBy(RESCUE, FED_RESCUE),
      cap(new LeakRoomLimit())),
  HOLD(
      "hold",
      WATER,
      "h",
      REFUSED,
      BY_ITSELF,
      veto(new HoldLimit(false, false)).passedBy(RESCUE, FED_RESCUE),
      veto(new HoldLimit(false, true)).onlyFor(RESCUE, FED_RESCUE)),
  CLOCK(
      "clock",
      WATER,
      "",
      REFUSED,
      BY_A_PERSON,
      veto(new ClockLimit()).passedBy(RESCUE, FED_RESCUE)),
  AWAY("away", WATER, "", REFUSED, BY_A_PERSON, veto(new AwayLimit())),
  UNTRUSTED("untrusted", WATER, "", REFUSED, BY_ITSELF, veto(new UntrustedLimit()).passedBy(BLIND)),
  FROST("frost", WATER, "C", REFUSED, BY_ITSELF, veto(new FrostLimit())),
  TOO_WET(
      "too-wet", WATER, "depletion", REFUSED, BY_ITSELF, cap(new TooWetLimit()).passedBy(FLUSH)),
  WET_TOO_LONG(
      "wet-too-long", WATER, "h", REFUSED, BY_ITSELF, veto(new WetTooLongLimit()).passedBy(FLUSH)),
  NO_DRY_BACK(
      "no-dry-back",
      WATER,
      "depletion",
      LIFTS,
      BY_ITSELF,
      veto(new NoDryBackLimit()).passedBy(RESCUE, FED_RESCUE, BLIND, FLUSH)),
  DAY_VOLUME(
      "day-volume",
      WATER,
      "mL",
      REFUSED,
      BY_ITSELF,
      cap(new DayVolumeLimit(false)).passedBy(RESCUE, ORDER, BLIND, FLUSH),
      cap(new DayVolumeLimit(true)).onlyFor(RESCUE, ORDER)),
  COLD("cold", WATER, "C", LIFTS, BY_ITSELF, veto(new ColdLimit()).passedBy(RESCUE, FED_RESCUE)),
  WINDOW(
      "window",
      WATER,
      "min",
      LIFTS,
      BY_ITSELF,
      veto(new WindowLimit()).passedBy(RESCUE, FED_RESCUE, FLUSH)),
  HOSE(
      "hose",
      WATER,
      "mg/L N",
      WAITS,
      BY_ITSELF,
      veto(new HoseLimit()).passedBy(RESCUE, FED_RESCUE)),
  SHEDS_WATER(
      "sheds-water",
      WATER,
      "",
      REFUSED,
      BY_A_PERSON,
      veto(new ShedsWaterLimit()).passedBy(RESCUE, FED_RESCUE, BLIND)),
  PASS(
      "pass",
      WATER,
      "mL",
      WAITS,
      BY_ITSELF,
      cap(new PassLimit(1.0)).passedBy(FED_RESCUE, FLUSH),
      cap(new FlushPassLimit()).onlyFor(FLUSH),
      // Feed on dry roots: half of the usual at a time.
      cap(new PassLimit(0.5)).onlyFor(FED_RESCUE),
      cap(new RefillLineLimit()).onlyFor(DUE, FORECAST, RESCUE, FED_RESCUE, ORDER)),
  TICK_VOLUME("tick-volume", WATER, "mL", WAITS, BY_ITSELF, veto(new TickVolumeLimit())),
  HALF_REFILL(
      "half-refill",
      WATER,
      "mL",
      WAITS,
      BY_ITSELF,
      cap(new BudgetLimit()).onlyFor(DUE, FORECAST, RESCUE, FED_RESCUE)),
  RATION("ration", WATER, "mL", WAITS, BY_ITSELF, cap(new BudgetLimit()).onlyFor(BLIND)),
  SOAK(
      "soak",
      WATER,
      "min",
      WAITS,
      BY_ITSELF,
      veto(new SoakLimit()).passedBy(FLUSH),
      veto(new FlushSoakLimit()).onlyFor(FLUSH)),
  HOLD_FEED(
      "hold-feed",
      FEED,
      "h",
      REFUSED,
      BY_ITSELF,
      veto(new HoldLimit(true, false)).passedBy(RESCUE, FED_RESCUE),
      veto(new HoldLimit(true, true)).onlyFor(RESCUE, FED_RESCUE)),
  STAGE("stage", FEED, "stage", REFUSED, BY_A_PERSON, veto(new StageLimit())),
  DRY_ROOTS(
      "dry-roots",
      FEED,
      "depletion",
      REFUSED,
      BY_ITSELF,
      veto(new DryRootsLimit()).passedBy(FED_RESCUE),
      veto(new PlainFirstLimit(PlainFirstLimit.Why.DRIED)).passedBy(FED_RESCUE, ORDER),
      veto(new PlainFirstLimit(PlainFirstLimit.Why.BYPASS)).passedBy(FED_RESCUE, ORDER)),
  STRENGTH(
      "strength",
      FEED,
      "label",
      REFUSED,
      BY_A_PERSON,
      cap(new StrengthLimit()),
      // What a person asks for is theirs to judge, below the bench's ceiling.
      cap(new StageStrengthLimit()).passedBy(FED_RESCUE, ORDER)),
  LEDGER("ledger", FEED, "label", REFUSED, BY_ITSELF, cap(new LedgerLimit())),
  SALT("salt", FEED, "mS/cm", REFUSED, BY_A_PERSON, veto(new SaltLimit())),
  DARK_SEASON(
      "dark-season",
      FEED,
      "",
      REFUSED,
      BY_ITSELF,
      veto(new DarkSeasonLimit()).passedBy(FED_RESCUE));

  /** What is limited. */
  public enum On {
    WATER,
    FEED
  }

  /** What a limit does. */
  public enum Effect {
    /** None at all. */
    VETO,
    /** No more than that. */
    CAP
  }

  /** How a person's dose takes a limit that holds. */
  public enum Dose {
    REFUSED,
    /** The rest of it comes later. */
    WAITS,
    /** Refused, unless the person lifts the limit for that dose. */
    LIFTS
  }

  /** What ends a limit. */
  enum Ends {
    BY_ITSELF,
    BY_A_PERSON
  }

  private final String word;
  private final On on;
  private final String unit;
  private final Dose dose;
  private final Ends ends;

  @SuppressWarnings("ImmutableEnumChecker") // An unmodifiable list of tests without state.
  private final List<Clause> clauses;

  LimitCode(String word, On on, String unit, Dose dose, Ends ends, Clause... clauses) {
    this.word = word;
    this.on = on;
    this.unit = unit;
    this.dose = dose;
    this.ends = ends;
    this.clauses = List.of(clauses);
  }

  /** Those that a person may lift for one dose, by name. */
  public static Set<String> liftable() {
    return words(code -> code.dose == LIFTS);
  }

  /** Those that a person's dose waits for, by name. */
  public static Set<String> waitedFor() {
    return words(code -> code.dose == WAITS);
  }

  private static Set<String> words(Predicate<LimitCode> which) {
    return Arrays.stream(values())
        .filter(which)
        .map(LimitCode::word)
        .collect(Collectors.toUnmodifiableSet());
  }

  /** Its name on the wire. */
  public String word() {
    return word;
  }

  /** What it limits. */
  public On on() {
    return on;
  }

  /** The gravest that any of its clauses does. */
  public Effect effect() {
    return clauses.stream().anyMatch(clause -> clause.effect() == Effect.VETO)
        ? Effect.VETO
        : Effect.CAP;
  }

  /** How a person's dose takes it. */
  public Dose dose() {
    return dose;
  }

  /** Whether a person must act before it ends. */
  public boolean acts() {
    return ends == BY_A_PERSON;
  }

  /** Causes that go through all of its clauses. */
  public Set<Cause> passedBy() {
    Set<Cause> through = EnumSet.allOf(Cause.class);
    clauses.forEach(clause -> through.retainAll(clause.passedBy()));
    return through;
  }

  /** Its name for a person. */
  public String called() {
    return Catalogue.say("limit." + word + ".name");
  }

  /** What ends it, in one sentence. */
  public String clears() {
    return Catalogue.say("limit." + word + ".clears");
  }

  /** What to do about it, in one sentence. */
  public String whatToDo() {
    return Catalogue.say("limit." + word + ".do");
  }

  /** As the set-up tells it. */
  public BenchSetup.Limit told() {
    return new BenchSetup.Limit(
        word,
        called(),
        lower(on),
        lower(effect()),
        unit,
        passedBy().stream().map(LimitCode::lower).toList(),
        lower(dose),
        acts(),
        clears(),
        whatToDo());
  }

  private static String lower(Enum<?> name) {
    return name.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  List<Clause> clauses() {
    return clauses;
  }

  /** The strictest of its clauses; of equals the first. */
  Ruling rule(Case pass) {
    Ruling strictest = Ruling.FREE;
    if (dose == LIFTS && pass.proposal().lifts().contains(word)) {
      return strictest;
    }
    for (Clause clause : clauses) {
      if (clause.binds(pass.proposal().cause())) {
        Ruling ruling = clause.limit().rule(pass);
        strictest = ruling.atMost() < strictest.atMost() ? ruling : strictest;
      }
    }
    return strictest;
  }

  /** The strictest of its caps, whatever its vetoes say. */
  double capMl(Case pass) {
    double least = Double.POSITIVE_INFINITY;
    for (Clause clause : clauses) {
      if (clause.effect() == Effect.CAP && clause.binds(pass.proposal().cause())) {
        least = Math.min(least, clause.limit().rule(pass).atMost());
      }
    }
    return least;
  }

  Reason reason(Ruling ruling) {
    return new Reason(
        word,
        ruling.value(),
        ruling.threshold(),
        ruling.unit() == null ? unit : ruling.unit(),
        ruling.detail());
  }
}
