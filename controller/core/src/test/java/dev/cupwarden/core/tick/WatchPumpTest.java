package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.DoseCheck;
import dev.cupwarden.core.dosing.DoseCheck.Verdict;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.LeakWatch.Stage;
import dev.cupwarden.core.dosing.PassOnTrial;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.dosing.WaterBalance;
import dev.cupwarden.core.state.TankState;
import java.time.Instant;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What stops the pump, what it misses, and what lets it go on. */
class WatchPumpTest {
  private final DraftBench bench = new DraftBench();

  private static Instant ago(double minutes) {
    return AT.minusSeconds(Math.round(60 * minutes));
  }

  /** The plain tank's gauge showed that ten minutes ago, or what was filled in then. */
  private void gauge(double beforeMl, double nowMl, Instant filledAt) {
    SortedMap<String, TankState> tanks = new TreeMap<>(bench.before.tanks());
    tanks.put("plain", new TankState(null, 0.0, beforeMl, filledAt, ago(10)));
    bench.before = bench.before.over(bench.before.cups(), bench.before.air(), tanks);
    bench.tankMl.put("plain", nowMl);
  }

  private double unexplainedMl() {
    BenchDraft draft = bench.draft();
    WatchPump.look(draft);
    return draft.pump.watch().leak().balance().unexplainedMl();
  }

  /** What is missing fades to a part of e in a day: 100 mL x exp(-5 / 1440) = 99.653. */
  @ParameterizedTest(name = "{0} mL, then {1} mL: {2} mL missing")
  @CsvSource({"10000, 9900, 99.653", "10000, 10000, 0", "10000, 10015, 0"})
  void whatTheGaugeFellByIsMissing(double beforeMl, double nowMl, double missingMl) {
    gauge(beforeMl, nowMl, null);
    assertEquals(missingMl, unexplainedMl(), 1e-3);
  }

  /** What a person said since the gauge was read is their word, not its reading. */
  @ParameterizedTest(name = "filled {0} min ago: {1} mL missing")
  @CsvSource({"11, 99.653", "10, 0", "0, 0"})
  void personsWordIsNoReading(double minutes, double missingMl) {
    gauge(10_000, 9_900, ago(minutes));
    assertEquals(missingMl, unexplainedMl(), 1e-3);
  }

  @Test
  void whoFillsATankBesideADrySensorHasTheBenchBeforeTheirEyes() {
    BenchDraft draft = bench.draft();
    draft.pump = draft.pump.with(LeakWatch.NONE.with(new WaterBalance(80.0)));
    draft.tanks.computeIfPresent(
        "feed", (name, was) -> new TankState(was.feed(), was.strength(), 3000.0, AT, null));
    WatchPump.look(draft);
    assertEquals(0.0, draft.pump.watch().leak().balance().unexplainedMl());
  }

  @ParameterizedTest(name = "wet {0}, unread {1}: {2}")
  @CsvSource({"true, false, WET", "true, true, WET", "false, true, UNREAD", "false, false, SOUND"})
  void sensorStopsThePump(boolean wet, boolean unread, Stage stage) {
    bench.leak = wet;
    bench.leakUnread = unread;
    BenchDraft draft = bench.draft();
    WatchPump.look(draft);
    assertEquals(stage, draft.pump.watch().leak().stage());
  }

  /** Dry for six hours; half of the room in a tray of 500 mL that holds 100. */
  @ParameterizedTest(name = "dry for {0} min: {1}")
  @CsvSource({"360, RESCUE", "359, DRYING"})
  void dryBenchGoesOnByRescues(double minutes, Stage stage) {
    BenchDraft draft = bench.draft();
    LeakWatch drying =
        new LeakWatch(
            Stage.DRYING, ago(minutes), Double.POSITIVE_INFINITY, 0.0, null, WaterBalance.NONE);
    draft.pump = draft.pump.with(drying).ranThrough(100.0);
    WatchPump.look(draft);
    assertEquals(stage, draft.pump.watch().leak().stage());
    if (stage == Stage.RESCUE) {
      assertEquals(200.0, draft.pump.watch().leak().mostMl());
    }
  }

  @ParameterizedTest(name = "trial begun {0} min ago: failed {1}")
  @CsvSource({"30, false", "31, true"})
  void trialThatNobodyJudgedInHalfAnHourFailed(double minutes, boolean failed) {
    BenchDraft draft = bench.draft();
    draft.pump = draft.pump.with(new PumpTrial("A1", ago(minutes), null));
    WatchPump.look(draft);
    assertEquals(failed ? AT : null, draft.pump.watch().trial().failedAt());
  }

  private static final PassOnTrial PASS = new PassOnTrial(ago(5), 1, 30.0, 300.0, 1.0, 0.5);

  private static CupDraft judged(BenchDraft draft, Verdict verdict, double riseG) {
    CupDraft cup = DraftBench.weighs(draft, "A1", 330.0);
    cup.finding = new DoseCheck.Finding(verdict, riseG, 30.0);
    WatchPump.judged(draft, cup, PASS);
    return cup;
  }

  /** Of 30 mL: what ran through is reckoned in the tray, what came short is missing. */
  @ParameterizedTest(name = "{0}, {1} g: {2} mL missing")
  @CsvSource({"ARRIVED, 29, 0", "BYPASS, 10, 0", "SHORT, 3, 27", "SHORT, -1, 30"})
  void passThatCameShortIsMissing(Verdict verdict, double riseG, double missingMl) {
    BenchDraft draft = bench.draft();
    judged(draft, verdict, riseG);
    assertEquals(missingMl, draft.pump.watch().leak().balance().unexplainedMl(), 1e-9);
    BenchDraft unseen = bench.draft();
    WatchPump.unseen(unseen, PASS);
    assertEquals(30.0, unseen.pump.watch().leak().balance().unexplainedMl());
  }

  /** A cup to which water came by itself stays latched. */
  @Test
  void trialThatArrivesFreesPumpAndTheCupsThatNothingCameTo() {
    BenchDraft draft = bench.draft();
    draft.pump =
        draft
            .pump
            .latched(new Latch(AlertCode.DOSE_SHORT, ago(1500), 3.0, 3.0))
            .cameShort("A1")
            .with(new PumpTrial("A2", ago(5), null));
    draft.cups.get("A1").latch = new Latch(AlertCode.DOSE_SHORT, ago(1500), 1.0, 6.0);
    CupDraft tried = DraftBench.weighs(draft, "A2", 200.0);
    tried.latch = new Latch(AlertCode.VALVE_LEAKING, ago(1500), 9.0, 3.0);
    tried.finding = new DoseCheck.Finding(Verdict.ARRIVED, 29.0, 30.0);
    WatchPump.judged(draft, tried, PASS);
    assertNull(draft.pump.latch());
    assertEquals(PumpTrial.NONE, draft.pump.watch().trial());
    assertNull(draft.cups.get("A1").latch);
    assertNotNull(tried.latch);
  }

  @Test
  void trialThatCameShortIsKeptAsFailed() {
    BenchDraft draft = bench.draft();
    draft.pump =
        draft
            .pump
            .latched(new Latch(AlertCode.DOSE_SHORT, ago(1500), 3.0, 3.0))
            .with(new PumpTrial("A1", ago(5), null));
    judged(draft, Verdict.SHORT, 1.0);
    assertNotNull(draft.pump.latch());
    assertEquals(new PumpTrial("A1", null, AT), draft.pump.watch().trial());
  }

  /** A day after the latch. */
  @ParameterizedTest(name = "{0} for {1} min: tried {2}")
  @CsvSource({
    "DOSE_SHORT, 1440, true",
    "DOSE_SHORT, 1439, false",
    "VALVE_LEAKING, 1440, true",
    "PUMP_RUNNING_ON, 1440, false"
  })
  void pumpIsTriedADayAfterItsLatch(AlertCode code, double minutes, boolean tried) {
    BenchDraft draft = bench.draft();
    draft.pump = draft.pump.latched(new Latch(code, ago(minutes), 3.0, 3.0));
    assertEquals(tried, WatchPump.trialDue(draft));
    WatchPump.gave(draft, "A2", 30.0);
    assertEquals(
        tried ? new PumpTrial("A2", AT, null) : PumpTrial.NONE, draft.pump.watch().trial());
  }

  @Test
  void cupWhoseWeightCanTellMayTryIt() {
    BenchDraft draft = bench.draft();
    CupDraft cup = DraftBench.weighs(draft, "A1", 300.0);
    assertTrue(WatchPump.canTry(cup));
    cup.latch = new Latch(AlertCode.DOSE_SHORT, AT, 1.0, 6.0);
    assertTrue(WatchPump.canTry(cup));
    cup.latch = new Latch(AlertCode.VALVE_LEAKING, AT, 9.0, 3.0);
    assertFalse(WatchPump.canTry(cup));
    cup.latch = null;
    cup.witness = cup.witness.tried(PASS);
    assertFalse(WatchPump.canTry(cup));
  }

  @Test
  void personWhoLookedEndsWhateverStoppedIt() {
    BenchDraft draft = bench.draft();
    draft.pump =
        draft
            .pump
            .latched(new Latch(AlertCode.DOSE_SHORT, AT, 3.0, 3.0))
            .with(LeakWatch.wetSince(AT))
            .ranThrough(120.0);
    WatchPump.clear(draft);
    assertNull(draft.pump.latch());
    assertEquals(Stage.SOUND, draft.pump.watch().leak().stage());
    assertEquals(0.0, draft.pump.trayMl());
  }
}
