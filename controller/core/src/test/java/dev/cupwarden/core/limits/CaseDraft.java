package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.Soaking;
import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.Distrust;
import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.setup.ClimateRules;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.WateringRules;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.CupLines;
import dev.cupwarden.core.watering.WaterAccount;
import dev.cupwarden.core.watering.WetClock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** A pass of 30 mL that no limit holds; a test changes what it asks about. */
final class CaseDraft {
  static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  static final Feed LEAFY = new Feed("leafy", 20, 10, 20, 1.0, Duration.ofDays(14), 5, 1.25);

  Cause cause = Cause.DUE;
  double wantMl = 30.0;
  Set<String> lifts = Set.of();
  boolean refilling;
  RootStage stage = RootStage.CIRCLING;
  CupLines lines = new CupLines(-0.25, 0.0, 0.75, 0.875);
  Distrust distrust;
  double depletion = 0.5;
  double capacityMl = 400.0;
  double roomMl = 100.0;
  double roomToWetMl = 150.0;
  Hold cupHold;
  Latch cupLatch;
  boolean away;
  Instant backAt;
  Instant coverAt;
  WetClock wet = WetClock.DRYING;
  double driedFrom = Double.NaN;
  List<Given> given = List.of();
  Instant lastPassAt;
  Soaking soaking = Soaking.USUAL;
  double fed;
  double saltMsPerCm = 1.0;
  double driest;
  FeedStrength mostFeed = FeedStrength.UNBOUND;
  Case.HoseFacts hose = Case.HoseFacts.CLEAR;
  boolean reached = true;
  FeedingRules feeding = FeedingRules.USUAL;
  Hold benchHold;
  Latch pumpLatch;
  LeakWatch leak = LeakWatch.NONE;
  boolean trial;
  boolean boardFault;
  Supply supply = new Supply("plain", 10_000.0, "feed", "leafy", 4_000.0, 0.5);
  Feed feed = LEAFY;
  boolean clockInDoubt;
  double airC = 20.0;
  double rootC = 20.0;
  LocalDate today = LocalDate.parse("2027-02-14");
  Case.WindowNow window = new Case.WindowNow(true, true, 1_200.0);
  boolean between;
  Case.Round round = Case.Round.NONE;

  static Instant ago(String time) {
    return AT.minus(Duration.parse(time));
  }

  /** A pass of the feed that long ago, into a cup with that much room. */
  void given(String ago, double ml, double strength, double cupRoomMl) {
    given = List.of(new Given(ago(ago), ml, strength, "leafy", cupRoomMl, false));
  }

  void leak(LeakWatch.Stage at, String since, double mostMl, double givenMl, String lastPass) {
    leak =
        new LeakWatch(
            at,
            ago(since),
            mostMl,
            givenMl,
            lastPass == null ? null : ago(lastPass),
            LeakWatch.NONE.balance());
  }

  Case made() {
    CupEstimate estimate =
        new CupEstimate(
            true, 300.0, 0.0, 0.1, 0.5, 0.1, true, Optional.ofNullable(distrust), false, AT);
    return new Case(
        AT,
        new Case.Proposal(cause, wantMl, Limits.LEAST_PASS_ML, lifts, refilling),
        new Case.CupFacts(
            stage,
            lines,
            estimate,
            depletion,
            200.0,
            capacityMl,
            roomMl,
            roomToWetMl,
            cupHold,
            cupLatch,
            away,
            backAt,
            coverAt,
            wet,
            driedFrom,
            given,
            WaterAccount.NONE,
            lastPassAt,
            soaking,
            fed,
            saltMsPerCm,
            rootC,
            driest,
            () -> mostFeed,
            hose,
            reached),
        new Case.BenchFacts(
            WateringRules.USUAL,
            feeding,
            ClimateRules.USUAL,
            benchHold,
            pumpLatch,
            leak,
            trial,
            boardFault,
            supply,
            feed,
            Map.of("leafy", LEAFY),
            clockInDoubt,
            airC,
            today,
            window,
            between,
            1.0,
            round));
  }
}
