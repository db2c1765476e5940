package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.annotation.JsonProperty;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.setup.Window;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;

/**
 * The bench as it is set up now: the bench file, with what orders have changed since. One part for
 * each field of {@code setup.schema.json}.
 *
 * @param at since when it is so
 * @param zone that the grower's clock shows; absent where the bench names no place
 * @param cups those on the bench; one that was taken out is missing
 * @param plants what is known of the cups' plants, by the word that the grower has for each; a word
 *     that is in no table is missing
 * @param limits in the order in which they are told
 * @param alerts all that may be raised
 * @param keys of the bench file that an order may change, in its order; empty where the bench was
 *     read from no file
 * @param waterAdvice what its water does to cups, and what cures it, in sentences
 * @param runsWithout what keeps people and floors safe and is not there or not known: parts that
 *     the grower has waived, with the reasons, and an untold drip tray, in sentences
 * @param free what hangs on the board under no cup; absent where the bench has no board
 * @param watched true where the bench is only watched and nothing is pumped, null otherwise
 * @param file the text of the bench file with what orders have changed; absent where the bench was
 *     read from none, or it is longer than is told
 */
public record BenchSetup(
    Instant at,
    Optional<ZoneId> zone,
    Watering watering,
    Feeding feeding,
    Climate climate,
    SortedMap<String, Vessel> vessels,
    SortedMap<String, Mix> mixes,
    SortedMap<String, Feed> feeds,
    double waterEcMsPerCm,
    SortedMap<String, Tank> tanks,
    SortedMap<String, Cup> cups,
    SortedMap<String, KnownPlant> plants,
    List<Limit> limits,
    List<Alert> alerts,
    List<BenchText.Key> keys,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> waterAdvice,
    @JsonInclude(JsonInclude.Include.NON_EMPTY) List<String> runsWithout,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<FreeParts> free,
    @JsonInclude(JsonInclude.Include.NON_NULL) Boolean watched,
    @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<String> file) {

  /** A controller of before tells no plants, no table of limits and alerts, and no keys. */
  public BenchSetup {
    plants = plants == null ? Collections.emptySortedMap() : plants;
    limits = limits == null ? List.of() : limits;
    alerts = alerts == null ? List.of() : alerts;
    keys = keys == null ? List.of() : keys;
    waterAdvice = waterAdvice == null ? List.of() : waterAdvice;
    runsWithout = runsWithout == null ? List.of() : runsWithout;
    free = free == null ? Optional.empty() : free;
    file = file == null ? Optional.empty() : file;
  }

  public record Watering(Window window, double passMl, double soakS) {}

  /** Strengths and targets as parts of the label's. */
  public record Feeding(
      double floor,
      double ceiling,
      Map<RootStage, Double> target,
      Map<RootStage, Double> strength,
      @JsonProperty("most_n_mg_per_l") Map<RootStage, Double> mostNMgPerL,
      Optional<FeedingRules.Pause> pause,
      List<FeedingRules.PlanStep> plan) {}

  /** {@code rootCups}: those that the root thermometer speaks for, where not for all. */
  public record Climate(
      double coldC,
      double frostC,
      double heatC,
      double rootHeatC,
      @JsonInclude(JsonInclude.Include.NON_ABSENT) Optional<SortedSet<String>> rootCups) {}

  /** Inner diameters, depth of mix, mass when empty. */
  public record Vessel(double topMm, double baseMm, double depthMm, double emptyG) {}

  /** Volume fractions. */
  public record Mix(double saturated, double unavailable, double leastAir) {}

  /** A feed's bag; {@code labelEveryS} seconds from one feed to the next by the label. */
  public record Feed(
      double nPct,
      @JsonProperty("p2o5_pct") double p2o5Pct,
      @JsonProperty("k2o_pct") double k2oPct,
      @JsonProperty("label_g_per_l") double labelGPerL,
      double labelEveryS,
      double spoonG,
      @JsonProperty("ec_ms_per_cm_per_g_per_l") double ecMsPerCmPerGPerL) {}

  /**
   * What is in it now; no feed: plain water.
   *
   * @param belowFloatMl what lies below its float and is not to be had; null: nothing
   */
  public record Tank(
      double sizeMl,
      Optional<String> feed,
      double strength,
      @JsonInclude(JsonInclude.Include.NON_NULL) Double belowFloatMl) {
    /** All of which is to be had. */
    public Tank(double sizeMl, Optional<String> feed, double strength) {
      this(sizeMl, feed, strength, null);
    }

    /** What is to be had of so much. */
    public double toBeHadMl(double leftMl) {
      return Math.max(0.0, leftMl - hiddenMl());
    }

    /** What must be in it before anything is to be had. */
    public double hiddenMl() {
      return belowFloatMl == null ? 0.0 : belowFloatMl;
    }
  }

  /** Names of scales, valves of cups, and probes that a new cup may take. */
  public record FreeParts(List<String> scales, List<String> valves, List<String> probes) {}

  /**
   * {@code covered}: true under a dome or in a bag, null where it stands open. {@code wired}: its
   * parts on the board, null where the bench has none.
   */
  public record Cup(
      String vessel,
      String mix,
      String plant,
      Optional<LocalDate> struck,
      RootStage stage,
      double cuttingG,
      StageLines lines,
      @JsonInclude(JsonInclude.Include.NON_NULL) Boolean covered,
      @JsonInclude(JsonInclude.Include.NON_NULL) Wired wired) {}

  /** As the board names them; what it has not is missing. */
  @JsonInclude(JsonInclude.Include.NON_ABSENT)
  public record Wired(Optional<String> scale, Optional<String> valve, Optional<String> probe) {}

  /**
   * A plant as a cutting.
   *
   * @param name in the trade
   * @param lineShift by how much its lines are moved, as a depletion
   * @param rootC the temperature wanted at the roots, from and to, °C
   * @param days from the first rooted cuttings to the last, at {@code daysAtC}
   * @param baseC at and below it nothing comes on
   * @param shootsFirst whether its buds often break before it has roots
   * @param own whether the bench file says so, not the program's table
   */
  public record KnownPlant(
      String name,
      double lineShift,
      @JsonProperty("root_c") List<Double> rootC,
      List<Double> days,
      @JsonProperty("days_at_c") double daysAtC,
      @JsonProperty("base_c") double baseC,
      boolean shootsFirst,
      boolean own) {}

  /**
   * A veto or cap of the program, for whoever shows or asks.
   *
   * @param code its name in reasons and checks
   * @param name for a person
   * @param on {@code water} or {@code feed}
   * @param effect {@code veto} or {@code cap}
   * @param unit of value and threshold; "" for pure numbers. A reason may have one of its own
   * @param passedBy causes that go through it, by name
   * @param dose what becomes of a person's dose: {@code refused}, {@code waits}, or {@code lifts}
   *     where the person may lift it
   * @param acts whether a person must act before it ends
   * @param clears what ends it
   * @param whatToDo in one sentence
   */
  public record Limit(
      String code,
      String name,
      String on,
      String effect,
      String unit,
      List<String> passedBy,
      String dose,
      boolean acts,
      String clears,
      @JsonProperty("do") String whatToDo) {}

  /**
   * An alert that a bench or its host may raise.
   *
   * @param unit of value and threshold; "" where they are parts of one or say nothing
   * @param part what the value is a part of; "" where it is none
   * @param countsCups whether its value counts cups where it is of the whole bench
   * @param rank its place among alerts that stand: 0 is the gravest
   * @param acts whether a person must act on it
   * @param later whether a person may put it off
   * @param clear whether a person's {@code clear} ends it
   */
  public record Alert(
      String code,
      String name,
      String unit,
      String part,
      boolean countsCups,
      int rank,
      boolean acts,
      boolean later,
      boolean clear) {}

  /** Whether it says the same, be it of another time. */
  public boolean sameAs(BenchSetup other) {
    return other != null && withAt(other.at).equals(other);
  }

  /** The same, told at another time. */
  public BenchSetup withAt(Instant time) {
    return new BenchSetup(
        time,
        zone,
        watering,
        feeding,
        climate,
        vessels,
        mixes,
        feeds,
        waterEcMsPerCm,
        tanks,
        cups,
        plants,
        limits,
        alerts,
        keys,
        waterAdvice,
        runsWithout,
        free,
        watched,
        file);
  }
}
