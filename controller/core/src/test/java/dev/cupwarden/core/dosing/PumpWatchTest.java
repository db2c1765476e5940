package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** What a journal kept of the pump: in an older one a leak is a latch of the pump. */
class PumpWatchTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");
  private static final Latch LEAK = new Latch(AlertCode.LEAK, AT, 1.0, 0.0);
  private static final Latch RUNS_ON = new Latch(AlertCode.PUMP_RUNNING_ON, AT, 1.0, 0.0);

  @Test
  void whatWasKeptIsTakenAsItIs() {
    PumpWatch kept = new PumpWatch(LeakWatch.NONE, PumpTrial.NONE.begun("a1", AT), true);
    assertSame(kept, PumpWatch.of(kept, LEAK));
  }

  @Test
  void latchOfALeakBecomesAWetBench() {
    PumpWatch watch = PumpWatch.of(null, LEAK);
    assertEquals(LeakWatch.Stage.WET, watch.leak().stage());
    assertEquals(AT, watch.leak().since());
    assertNull(PumpWatch.latch(LEAK));
  }

  @Test
  void anyOtherLatchStays() {
    assertEquals(PumpWatch.NONE, PumpWatch.of(null, RUNS_ON));
    assertEquals(PumpWatch.NONE, PumpWatch.of(null, null));
    assertSame(RUNS_ON, PumpWatch.latch(RUNS_ON));
    assertNull(PumpWatch.latch(null));
  }
}
