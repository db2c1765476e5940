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
}
