package dev.cupwarden.core.messages;

import com.fasterxml.jackson.annotation.JsonProperty;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.setup.Window;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;

/**
 * The bench as it is set up now: the bench file, with what orders have changed since.
 *
 * @param at since when it is so
 * @param zone that the grower's clock shows; absent where the bench names no place
 * @param cups those on the bench; one that was taken out is missing
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
    SortedMap<String, Cup> cups) {

  public record Watering(Window window, double passMl, double soakS) {}

  /** Strengths and targets as parts of the label's. */
  public record Feeding(
      double floor,
      double ceiling,
      Map<RootStage, Double> target,
      Optional<FeedingRules.Pause> pause,
      List<FeedingRules.PlanStep> plan) {}

  public record Climate(double coldC, double frostC, double heatC) {}

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

  /** What is in it now; no feed: plain water. */
  public record Tank(double sizeMl, Optional<String> feed, double strength) {}

  public record Cup(
      String vessel,
      String mix,
      String plant,
      Optional<LocalDate> struck,
      RootStage stage,
      double cuttingG,
      StageLines lines) {}

  /** Whether it says the same, be it of another time. */
  public boolean sameAs(BenchSetup other) {
    return other != null && withAt(other.at).equals(other);
  }

  private BenchSetup withAt(Instant time) {
    return new BenchSetup(
        time, zone, watering, feeding, climate, vessels, mixes, feeds, waterEcMsPerCm, tanks, cups);
  }
}
