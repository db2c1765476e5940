package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.LeakWatch.Stage;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.dosing.WaterBalance;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Catalogue;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What stops the pump, as the whole bench is told of it. */
class TellPumpTest {
  private final DraftBench bench = new DraftBench();

  private List<AlertNotice> told(BenchDraft draft) {
    Conditions conditions = new Conditions(Collections.emptySortedMap());
    TellPump.tell(draft, conditions);
    return DraftBench.told(draft, conditions);
  }

  @Test
  void soundBenchIsToldOfNothing() {
    assertTrue(told(bench.draft()).isEmpty());
  }

  @ParameterizedTest(name = "{0}, a trial failed: {1}: {2}")
  @CsvSource({
    "DOSE_SHORT, false, pump",
    "DOSE_SHORT, true, trial-failed",
    "VALVE_LEAKING, false, pump",
    "VALVE_LEAKING, true, trial-failed",
    "PUMP_RUNNING_ON, true, pump"
  })
  void latchIsToldWithItsFiguresAndWhatItsTrialShowed(
      AlertCode code, boolean failed, String words) {
    BenchDraft draft = bench.draft();
    draft.pump = draft.pump.latched(new Latch(code, AT, 9.0, 3.0));
    draft.pump = draft.pump.with(new PumpTrial("A2", null, failed ? AT : null));
    AlertNotice notice = told(draft).get(0);
    assertEquals(code.word(), notice.code());
    assertEquals(9.0, notice.value());
    assertEquals(3.0, notice.threshold());
    assertEquals(Catalogue.say("alert." + code.word() + "." + words, "A2"), notice.whatToDo());
    assertEquals(null, notice.cup());
  }

  private BenchDraft leaking(Stage stage, double givenMl, double unexplainedMl) {
    BenchDraft draft = bench.draft();
    WaterBalance balance = new WaterBalance(unexplainedMl);
    draft.pump =
        draft.pump.with(new LeakWatch(stage, AT, 200.0, givenMl, null, balance)).ranThrough(100.0);
    return draft;
  }

  /**
   * On rescue what was given of what may be (least pass 5 mL); unexplained, what is missing with
   * what is in the tray of 500 mL; else so or not so. Told by the hour while it is wet.
   */
  @ParameterizedTest(name = "{0}, {1} mL given: {2} of {3}, {4}")
  @CsvSource({
    "WET, 0, 1, 0, wet, 1",
    "DRYING, 0, 1, 0, drying, 0",
    "UNREAD, 0, 1, 0, unread, 0",
    "PERSON, 0, 1, 0, again, 0",
    "RESCUE, 195, 195, 200, rescue, 0",
    "RESCUE, 195.1, 195.1, 200, rescue-over, 0",
    "UNEXPLAINED, 0, 550, 500, unexplained, 0"
  })
  void leakIsToldByItsStage(
      Stage stage, double givenMl, double value, double threshold, String words, int severity) {
    AlertNotice notice = told(leaking(stage, givenMl, 450.0)).get(0);
    assertEquals("leak", notice.code());
    assertEquals(value, notice.value(), 1e-9);
    assertEquals(threshold, notice.threshold(), 1e-9);
    assertEquals(Catalogue.say("alert.leak." + words, 200.0), notice.whatToDo());
    assertEquals(severity, notice.severity());
  }

  @Test
  void wetSensorThatCannotBeReadIsToldAsBoth() {
    bench.leakUnread = true;
    AlertNotice notice = told(leaking(Stage.WET, 0.0, 0.0)).get(0);
    assertEquals(Catalogue.say("alert.leak.wet-unread"), notice.whatToDo());
  }
}
