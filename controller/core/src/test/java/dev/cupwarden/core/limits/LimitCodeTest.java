package dev.cupwarden.core.limits;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch.Stage;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.watering.Cause;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The columns of the table as the contract and the design give them, written down by hand. */
class LimitCodeTest {
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "hardware     | water | veto |           | refused | true  |",
        "hold         | water | veto | h         | refused | false | prime rinse",
        "clock        | water | veto |           | refused | true  | fed-rescue rescue prime rinse",
        "away         | water | veto |           | refused | true  | prime rinse",
        "untrusted    | water | veto |           | refused | false | blind prime rinse",
        "frost        | water | veto | C         | refused | false | prime rinse",
        "too-wet      | water | cap  | depletion | refused | false | flush prime rinse",
        "wet-too-long | water | veto | h         | refused | false | flush prime rinse",
        "no-dry-back  | water | veto | depletion | lifts   | false "
            + "| fed-rescue rescue blind flush prime rinse",
        "day-volume   | water | cap  | mL        | refused | false | blind flush prime rinse",
        "cold         | water | veto | C         | lifts   | false | fed-rescue rescue prime rinse",
        "window       | water | veto | min       | lifts   | false "
            + "| fed-rescue rescue flush prime rinse",
        "hose         | water | veto | mg/L N    | waits   | false | fed-rescue rescue prime rinse",
        "sheds-water  | water | veto |           | refused | true  | fed-rescue rescue blind prime rinse",
        "pass         | water | cap  | mL        | waits   | false | prime rinse",
        "tick-volume  | water | veto | mL        | waits   | false | prime rinse",
        "half-refill  | water | cap  | mL        | waits   | false | blind flush order prime rinse",
        "ration       | water | cap  | mL        | waits   | false "
            + "| due fed-rescue forecast rescue flush order prime rinse",
        "soak         | water | veto | min       | waits   | false | prime rinse",
        "hold-feed    | feed  | veto | h         | refused | false | prime rinse",
        "stage        | feed  | veto | stage     | refused | true  | prime rinse",
        "dry-roots    | feed  | veto | depletion | refused | false | fed-rescue prime rinse",
        "strength     | feed  | cap  | label     | refused | true  | prime rinse",
        "ledger       | feed  | cap  | label     | refused | false | prime rinse",
        "salt         | feed  | veto | mS/cm     | refused | true  | prime rinse",
        "dark-season  | feed  | veto |           | refused | false | fed-rescue prime rinse",
      })
  void columns(
      String code,
      String on,
      String effect,
      String unit,
      String dose,
      boolean acts,
      String passed) {
    BenchSetup.Limit told =
        Arrays.stream(LimitCode.values())
            .map(LimitCode::told)
            .filter(limit -> limit.code().equals(code))
            .findFirst()
            .orElseThrow();
    assertEquals(on, told.on());
    assertEquals(effect, told.effect());
    assertEquals(unit == null ? "" : unit, told.unit());
    assertEquals(dose, told.dose());
    assertEquals(acts, told.acts());
    assertEquals(passed == null ? "" : passed, String.join(" ", told.passedBy()));
  }

  @Test
  void eachCodeAndEachNameStandsOnce() {
    List<BenchSetup.Limit> all = Arrays.stream(LimitCode.values()).map(LimitCode::told).toList();
    assertEquals(26, all.stream().map(BenchSetup.Limit::code).distinct().count());
    assertEquals(26, all.stream().map(BenchSetup.Limit::name).distinct().count());
    assertEquals(26, all.size());
  }

  @Test
  void itsSentencesAreThoseOfItsCode() {
    BenchSetup.Limit soak = LimitCode.SOAK.told();
    assertEquals("soaking", soak.name());
    assertEquals("the soak is over", soak.clears());
    assertEquals("Wait until the last pass has soaked in.", soak.whatToDo());
  }

  @Test
  void personMayLiftThreeAndADoseWaitsForSome() {
    assertEquals(Set.of("window", "cold", "no-dry-back"), LimitCode.liftable());
    assertEquals(
        Set.of("hose", "pass", "tick-volume", "half-refill", "ration", "soak"),
        LimitCode.waitedFor());
  }

  /** Two clauses hold at once: 0 mL after a leak, and 4 mL of what it may have. */
  @Test
  void ofARowThatHoldsTheStrictestClauseIsTold() {
    CaseDraft draft = new CaseDraft();
    draft.leak(Stage.RESCUE, "PT2H", 25.0, 21.0, null);
    assertEquals(
        List.of("hardware leak-rescue"),
        Limits.judge(draft.made()).holding().stream()
            .map(reason -> reason.code() + " " + reason.detail())
            .toList());
  }

  @Test
  void ofClausesThatAreEquallyStrictTheFirstIsTold() {
    CaseDraft draft = new CaseDraft();
    draft.leak(Stage.RESCUE, "PT2H", 25.0, 21.0, null);
    draft.cupLatch = new Latch(AlertCode.DOSE_SHORT, CaseDraft.AT, 2.0, 3.0);
    assertEquals("dose-short", Limits.judge(draft.made()).holding().get(0).detail());
  }

  /** Of 100 mL of room a tenth of 110 mL at a time; the shut window is no cap. */
  @Test
  void capsAloneLeaveTheSizeOfAPass() {
    CaseDraft draft = new CaseDraft();
    draft.cause = Cause.ORDER;
    draft.wantMl = Double.POSITIVE_INFINITY;
    draft.capacityMl = 110.0;
    draft.window = new Case.WindowNow(false, false, 90.0);
    assertEquals(11.0, Limits.capMl(draft.made()), 1e-9);
    draft.roomMl = 7.0;
    assertEquals(7.0, Limits.capMl(draft.made()), 1e-9, "what is missing");
    draft.roomMl = 5.0;
    assertEquals(5.0, Limits.capMl(draft.made()), 1e-9, "worth one");
    draft.roomMl = 4.9;
    assertEquals(0.0, Limits.capMl(draft.made()), 1e-9, "not worth a valve");
  }
}
