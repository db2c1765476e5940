package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.watering.LossLog;
import dev.cupwarden.core.watering.ScaleDrift;
import dev.cupwarden.core.watering.WaterAccount;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What A1's account says it lost, by hand. Its rate by the estimate is 1 g/h; a toughened cup of
 * which nothing is known is foretold to take 4 days from refill to due: 0.45 x 271.754 / 96 =
 * 1.2738 g/h.
 */
class AccountWaterTest {
  private static final double FORETOLD_G_PER_H = 0.45 * DraftBench.A1_AVAILABLE_ML / 96.0;

  private final DraftBench bench = new DraftBench();
  private final BenchDraft draft = bench.draft();

  private static Instant ago(double hours) {
    return AT.minusSeconds(Math.round(3600 * hours));
  }

  /** Weighed so many hours ago, and by that much heavier. */
  private CupDraft fell(double hours, double g) {
    CupDraft cup = DraftBench.weighs(draft, "A1", 340.0 - g);
    LossLog.Slot nothing = new LossLog.Slot(ago(hours), 0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
    cup.account = WaterAccount.NONE.filled(ago(hours), 0.0).seen(ago(hours), 340.0, nothing);
    return cup;
  }

  private LossLog.Slot account(CupDraft cup) {
    new AccountWater().account(draft);
    return cup.account.losses().open();
  }

  @Test
  void firstWeightLosesNothingAndIsKept() {
    CupDraft cup = DraftBench.weighs(draft, "A1", 340.0);
    assertEquals(0.0, account(cup).lostG());
    assertEquals(340.0, cup.account.seenG());
    assertEquals(AT, cup.account.seenAt());
  }

  /** Up to two hours it was seen; over longer at most twice what was foretold. */
  @ParameterizedTest(name = "{1} g in {0} h: {2} g lost, {3} of them seen")
  @CsvSource({"1, 1.5, 1.5, 1.5", "2, 9, 9, 9", "3, 5, 5, 0", "3, 9, 7.643, 0", "3, -1, 0, 0"})
  void fallOfATrustedWeightIsLoss(double hours, double fellG, double lostG, double seenG) {
    LossLog.Slot slot = account(fell(hours, fellG));
    assertEquals(lostG, slot.lostG(), 1e-3);
    assertEquals(seenG, slot.seenG(), 1e-3);
    assertEquals(hours > 2.0 ? 0.0 : hours, slot.seenH(), 1e-9);
    assertEquals(hours * FORETOLD_G_PER_H, slot.foretoldG(), 1e-3);
  }

  /**
   * A rise hides what dried: the rate says it. Who handled a cup may have shed some; runoff is no
   * loss.
   */
  @Test
  void rateSpeaksWhereTheWeightShowsMore() {
    CupDraft watered = fell(1.0, -49.0);
    watered.events = List.of(new WeightEvent.HandWatering(AT, 339.0, 50.0));
    assertEquals(1.0, account(watered).lostG(), 1e-9);
    CupDraft moved = fell(1.0, 4.0);
    moved.events = List.of(new WeightEvent.Returned(AT, 339.0, -3.0));
    assertEquals(1.0, account(moved).lostG(), 1e-9);
    CupDraft gained = fell(1.0, 0.2);
    gained.events = List.of(new WeightEvent.Returned(AT, 339.0, 0.8));
    assertEquals(0.2, account(gained).lostG(), 1e-9);
  }

  /** 22 °C and 50 %: VPD 1.322 kPa, and 0.1 for air that is still (check values). */
  @Test
  void driveOfTheAirIsKeptWithTheHours() {
    assertEquals(1.0, account(fell(1.0, 1.0)).driveKpaH(), 1e-9);
    bench.airC = OptionalDouble.of(22.0);
    bench.rhPct = OptionalDouble.of(50.0);
    BenchDraft airy = bench.draft();
    CupDraft cup = DraftBench.weighs(airy, "A1", 339.0);
    cup.account = WaterAccount.NONE.seen(ago(1), 340.0, slot(ago(1)));
    new AccountWater().account(airy);
    assertEquals(1.322 + 0.1, cup.account.losses().open().driveKpaH(), 2e-3);
  }

  private static LossLog.Slot slot(Instant from) {
    return new LossLog.Slot(from, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
  }

  /** 5 minutes at 2.4 g/h are 0.2 g. */
  @Test
  void cupThatNobodyWeighsLosesWhatIsReckoned() {
    CupDraft cup = DraftBench.doubted(draft, "A1", 340.0, 5.0, DistrustCode.SCALE_SILENT);
    cup.account = WaterAccount.NONE.filled(ago(2), 10.0);
    cup.reckonFrom(new OwnWater(ago(2), AT, 340.0, 25.0, 0.0, 0.04, 2.4, 1.0, 0.0));
    new AccountWater().account(draft);
    assertEquals(0.2, cup.account.full().countedG(), 1e-9);
    assertNull(cup.account.seenAt(), "the next weight begins anew");
  }

  /**
   * A scale that lost 40 g more than was foretold, beyond a tenth of 271.754 mL, and twice as much
   * in an hour, is not believed from now on; its weight is reckoned.
   */
  @ParameterizedTest(name = "{0} g beyond, {1} g/h seen of 1 g/h foretold: {2}")
  @CsvSource({"40, 2.01, true", "40, 1.99, false", "27.1, 2.01, false", "27.2, 2.01, true"})
  void useThatDoublesIsDoubtOfTheScale(double unexplainedG, double seenGPerH, boolean doubted) {
    CupDraft cup = fell(0.1, 0.1);
    cup.account = drifting(cup.account, unexplainedG, seenGPerH);
    new AccountWater().account(draft);
    assertEquals(doubted, cup.account.drift().told());
    assertEquals(doubted ? AT : null, cup.weight.distrustedSince());
    assertEquals(doubted, !cup.now.trusted());
  }

  private static WaterAccount drifting(WaterAccount was, double unexplainedG, double seenGPerH) {
    ScaleDrift drift = new ScaleDrift(ago(24), unexplainedG, 0.0, null, seenGPerH, 1.0, Double.NaN);
    return new WaterAccount(
        was.seenAt(),
        was.seenG(),
        was.losses(),
        was.usual(),
        was.more(),
        was.full(),
        was.half(),
        was.rises(),
        drift);
  }

  /** What is foretold counts in its stead: an hour of 1.2738 g. */
  @Test
  void scaleThatIsNotBelievedLosesWhatIsForetold() {
    CupDraft cup = fell(1.0, 30.0);
    WaterAccount told = drifting(cup.account, 40.0, 2.0).doubted(ago(1), 340.0);
    cup.account = told;
    new AccountWater().account(draft);
    assertEquals(FORETOLD_G_PER_H, cup.account.full().countedG(), 1e-4);
    assertEquals(LossLog.EMPTY, cup.account.losses());
    assertTrue(cup.account.drift().told());
    assertFalse(cup.now.trusted());
  }

  @Test
  void cupThatIsAwayOrUnreadLosesNothing() {
    CupDraft away = fell(1.0, 1.0);
    away.presence = away.presence.takenAway(AT.minus(Duration.ofMinutes(1)));
    assertEquals(0.0, account(away).lostG());
    CupDraft unread = fell(1.0, 1.0);
    unread.readG = Double.NaN;
    assertEquals(0.0, account(unread).lostG());
  }
}
