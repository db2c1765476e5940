package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.setup.ClimateRules;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.WateringRules;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.CupLines;
import dev.cupwarden.core.watering.WaterAccount;
import dev.cupwarden.core.watering.WetClock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

/** A pass that is proposed, and all that a limit may look at to judge it. */
public record Case(Instant at, Proposal proposal, CupFacts cup, BenchFacts bench) {

  /**
   * The pass.
   *
   * @param cause why; null where nothing is proposed and the question is what would hold it back
   * @param wantMl what is missing
   * @param leastMl smaller passes are not worth a valve: 5 mL or 8 standard deviations
   * @param lifts limits that a person lifts for it
   * @param refilling whether a refill is under way
   */
  public record Proposal(
      Cause cause, double wantMl, double leastMl, Set<String> lifts, boolean refilling) {}

  /**
   * The cup: one part for each fact that a limit asks for, since limits do not know the state.
   *
   * @param depletion NaN where it was never known
   * @param availableMl water between capacity and where the cutting can take no more
   * @param capacityMl water at container capacity
   * @param roomMl to the refill line, what is on its way counted as arrived
   * @param roomToWetMl to the wet line, likewise
   * @param hold its own; null where there is none
   * @param latch its own; null where there is none
   * @param backAt when it last came back to the bench; null if never
   * @param coverAt when it was last said to be covered, or no longer; null if never
   * @param driedFrom depletion at which its last refill ended; NaN if there was none
   * @param lastPassAt null if there was none
   * @param fed label-equivalents within the last label interval
   * @param saltMsPerCm conductivity of its water at capacity, as reckoned
   * @param rootsC what counts as the temperature of its roots; NaN where nothing was supplied
   * @param driest greatest depletion since its last refill ended
   * @param mostFeed what bounds the program's own feed, and why; reckoned where feed is asked for
   * @param hose what the shared hose would bring it with plain water
   * @param reached whether anything leads from the pump to it
   */
  public record CupFacts(
      RootStage stage,
      CupLines lines,
      CupEstimate estimate,
      double depletion,
      double availableMl,
      double capacityMl,
      double roomMl,
      double roomToWetMl,
      Hold hold,
      Latch latch,
      boolean away,
      Instant backAt,
      Instant coverAt,
      WetClock wet,
      double driedFrom,
      List<Given> given,
      WaterAccount account,
      Instant lastPassAt,
      Soaking soaking,
      double fed,
      double saltMsPerCm,
      double rootsC,
      double driest,
      Supplier<FeedStrength> mostFeed,
      HoseFacts hose,
      boolean reached) {

    /** No cup: a pass into a jug or to waste. */
    public static CupFacts ofNoCup() {
      return new CupFacts(
          null,
          null,
          null,
          Double.NaN,
          0.0,
          0.0,
          0.0,
          0.0,
          null,
          null,
          false,
          null,
          null,
          null,
          Double.NaN,
          List.of(),
          null,
          null,
          null,
          0.0,
          0.0,
          Double.NaN,
          0.0,
          () -> FeedStrength.UNBOUND,
          HoseFacts.CLEAR,
          true);
    }
  }

  /**
   * The shared hose, as a cup would find it.
   *
   * @param carriesNMgPerL nitrogen that the next pass would carry if only plain water were drawn
   * @param mostNMgPerL what the cup may have of it
   * @param othersFirst whether cups that get plain water come before this one, which gets feed
   * @param waitedMin how long it has waited for the hose alone
   */
  public record HoseFacts(
      double carriesNMgPerL, double mostNMgPerL, boolean othersFirst, double waitedMin) {
    /** Nothing in it that could be too much for anyone. */
    public static final HoseFacts CLEAR = new HoseFacts(0.0, 0.0, false, 0.0);
  }

  /**
   * The bench: one part for each fact that a limit asks for, as of the cup.
   *
   * @param latch the pump's; null where there is none
   * @param leak how the bench stands to a leak
   * @param trial whether one pass may try a pump that brought nothing
   * @param boardFault whether the board could not do as it was told
   * @param supply what the tanks can give
   * @param feed in the feed tank; null where there is none
   * @param feeds of the bench by name
   * @param airC NaN where never supplied
   * @param window whether it is open for a cup that was there all day, and for one that was not
   * @param between whether soak is kept by a person, who takes a list of passes in order
   * @param pumpPart of what is ordered that the pump truly gives
   * @param round what went out in this tick
   */
  public record BenchFacts(
      WateringRules watering,
      FeedingRules feeding,
      ClimateRules climate,
      Hold hold,
      Latch latch,
      LeakWatch leak,
      boolean trial,
      boolean boardFault,
      Supply supply,
      Feed feed,
      Map<String, Feed> feeds,
      boolean clockInDoubt,
      double airC,
      LocalDate today,
      WindowNow window,
      boolean between,
      double pumpPart,
      Round round) {}

  /**
   * The passes of one tick.
   *
   * @param givenMl put out so far
   * @param mostMl what the pump gives within a tick; infinite where a person waters
   */
  public record Round(double givenMl, double mostMl) {
    /** Not begun, and without bound. */
    public static final Round NONE = new Round(0.0, Double.POSITIVE_INFINITY);
  }

  /**
   * The watering window at that moment.
   *
   * @param open for every cup
   * @param openForReturned also for cups that were away today
   * @param minutesToOpening until it opens next; if it is open, the time after
   */
  public record WindowNow(boolean open, boolean openForReturned, double minutesToOpening) {
    /** When that is. */
    public Instant opening(Instant at) {
      return at.plusMillis(Math.round(minutesToOpening * 60_000.0));
    }
  }

  /** Hours from then to the moment of the case. */
  double hoursSince(Instant then) {
    return Elapsed.hours(then, at);
  }
}
