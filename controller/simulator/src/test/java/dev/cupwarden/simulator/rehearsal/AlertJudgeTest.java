package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.simulator.faults.FaultLevel;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class AlertJudgeTest {
  private static final int DAY = 288;

  private Scene scene;
  private AlertJudge judge;

  @BeforeEach
  void aBenchWithoutFaults() {
    scene = new Scene(UsualBench.of(2), 1);
    judge = new AlertJudge(scene, new Stand(scene, FaultLevel.NONE, 30, 1));
  }

  private static AlertNotice notice(String code, String cup, String state) {
    return new AlertNotice(code, cup, state, Instant.EPOCH, 0, 0, "");
  }

  private void pass(long fromTick, long toTick, double rootC) {
    for (long tick = fromTick; tick < toTick; tick++) {
      judge.tick(List.of(), tick, rootC);
    }
  }

  @Test
  void coldThatIsToldWithinTwoDaysIsFound() {
    pass(0, DAY, 5);
    judge.tick(List.of(notice("cold", null, "raised")), DAY, 5);
    pass(DAY + 1, 4 * DAY, 5);
    AlertCount count = judge.counts().get("cold");
    assertEquals(1, count.raised());
    assertEquals(0, count.falseOnes());
    assertEquals(1, count.conditions());
    assertEquals(0, count.missed());
    assertTrue(judge.active(AlertJudge.BENCH, Set.of("cold")));
  }

  @Test
  void coldThatNobodyToldOfIsMissed() {
    pass(0, 4 * DAY, 5);
    assertEquals(1, judge.counts().get("cold").missed());
  }

  @Test
  void anAlertOfAWarmBenchIsFalse() {
    judge.tick(List.of(notice("cold", null, "raised")), 1, 20);
    pass(2, 4 * DAY, 20);
    AlertCount count = judge.counts().get("cold");
    assertEquals(1, count.falseOnes());
    assertEquals(0, count.conditions());
  }

  @Test
  void anAlertThatIsToldAgainCountsOnce() {
    judge.tick(List.of(notice("wet-too-long", "C001", "raised")), 1, 20);
    judge.tick(List.of(notice("wet-too-long", "C001", "raised")), 2, 20);
    assertEquals(1, judge.counts().get("wet-too-long").raised());
    judge.tick(List.of(notice("wet-too-long", "C001", "cleared")), 3, 20);
    assertTrue(!judge.active(0, Set.of("wet-too-long")));
  }
}
