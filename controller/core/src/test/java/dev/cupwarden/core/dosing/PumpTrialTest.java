package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One pass a day through a pump that brought nothing: our choice. */
class PumpTrialTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final Latch NOTHING_CAME = new Latch(AlertCode.DOSE_SHORT, AT, 0.0, 0.2);

  private static Instant after(long seconds) {
    return AT.plusSeconds(seconds);
  }

  @ParameterizedTest(name = "after {0} s: {1}")
  @CsvSource({"0, false", "86399, false", "86400, true", "100000, true"})
  void dueADayAfterTheLatch(long seconds, boolean due) {
    assertEquals(due, PumpTrial.NONE.due(NOTHING_CAME, after(seconds)));
  }

  @Test
  void noneForAnotherLatchOrNone() {
    Latch runsOn = new Latch(AlertCode.PUMP_RUNNING_ON, AT, 1.0, 0.0);
    assertFalse(PumpTrial.NONE.due(runsOn, after(200_000)));
    assertFalse(PumpTrial.NONE.due(null, after(200_000)));
  }

  @Test
  void noneBesideOneThatIsNotJudged() {
    PumpTrial begun = PumpTrial.NONE.begun("a1", after(86_400));
    assertFalse(begun.due(NOTHING_CAME, after(200_000)));
    assertTrue(begun.judgedBy("a1"));
    assertFalse(begun.judgedBy("a2"));
    assertFalse(PumpTrial.NONE.judgedBy("a1"));
  }

  @Test
  void againADayAfterOneThatFailed() {
    PumpTrial failed = PumpTrial.NONE.begun("a1", after(86_400)).failed(after(90_000));
    assertFalse(failed.judgedBy("a1"), "it is over");
    assertEquals("a1", failed.cup());
    assertFalse(failed.due(NOTHING_CAME, after(90_000 + 86_399)));
    assertTrue(failed.due(NOTHING_CAME, after(90_000 + 86_400)));
    PumpTrial again = failed.begun("a2", after(180_000));
    assertEquals(new PumpTrial("a2", after(180_000), after(90_000)), again);
  }

  /** As late as a reading may judge a pass. */
  @ParameterizedTest(name = "after {0} s: {1}")
  @CsvSource({"0, false", "1800, false", "1801, true"})
  void lapsesWithItsPass(long seconds, boolean lapsed) {
    assertEquals(lapsed, PumpTrial.NONE.begun("a1", AT).lapsed(after(seconds)));
    assertFalse(PumpTrial.NONE.lapsed(after(seconds)));
  }

  /** Where nothing had come, anything that comes is enough. */
  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({"SHORT, false", "BYPASS, true", "ARRIVED, true", "OVER, true"})
  void passedWhereSomethingCameAgain(DoseCheck.Verdict verdict, boolean passed) {
    PumpTrial begun = PumpTrial.NONE.begun("a1", after(86_400));
    assertEquals(passed, begun.passed(NOTHING_CAME, finding(verdict, 6.0), 1.0));
  }

  /** Of 20 mL ordered a pump that gives half brings 10 g: four fifths of them are 8 g. */
  @ParameterizedTest(name = "{0}, {1} g, seen astray {2} s after it began: {3}")
  @CsvSource({
    "ARRIVED, 8.0, -1, true",
    "BYPASS, 8.0, -1, true",
    "BYPASS, 7.99, -1, false",
    "ARRIVED, 8.0, 0, true",
    "ARRIVED, 8.0, 1, false",
    "OVER, 30.0, -1, false"
  })
  void passedWhereAllCameAndNoneWentAstray(
      DoseCheck.Verdict verdict, double riseG, long astrayAfter, boolean passed) {
    Latch astray = new Latch(AlertCode.VALVE_LEAKING, after(86_400 + astrayAfter), 1.0, 0.0);
    PumpTrial begun = PumpTrial.NONE.begun("a1", after(86_400));
    assertEquals(passed, begun.passed(astray, finding(verdict, riseG), 0.5));
  }

  private static DoseCheck.Finding finding(DoseCheck.Verdict verdict, double riseG) {
    return new DoseCheck.Finding(verdict, riseG, 20.0);
  }
}
