package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Three cups say what the pump gives. */
class JudgePumpDriftTest {
  /** 10 % less for ten days: told once, a week after it began, with what it is off by. */
  @Test
  void wornTubeIsToldAfterAWeek() {
    Story story = EveryAlertStoryTest.wornPump(0.9);
    List<AlertNotice> told =
        story.alerts.stream().filter(alert -> alert.code().equals("pump-drift")).toList();
    assertEquals(1, told.size(), told.toString());
    assertEquals(0.10, told.get(0).value(), 0.02);
    assertEquals(0.05, told.get(0).threshold());
    assertTrue(told.get(0).whatToDo().contains("gained less"), told.get(0).whatToDo());
    Duration since = Duration.between(story.state.compared().pumpOffSince(), story.at);
    assertTrue(since.toDays() >= 7 && since.toDays() < 12, since.toString());
  }

  @Test
  void pumpThatIsOffByLessIsNoMatter() {
    Story story = EveryAlertStoryTest.wornPump(0.97);
    assertFalse(story.raised("pump-drift"));
    assertEquals(null, story.state.compared().pumpOffSince());
  }

  @Test
  void cupsThatSayNothingBeginNoWeek() {
    BenchDraft draft = new DraftBench().draft();
    draft.pumpOffSince = AT.minus(Duration.ofDays(8));
    JudgePumpDrift.look(draft);
    assertEquals(null, draft.pumpOffSince, "two cups are too few, and the pump counts as right");
    draft.pumpOffSince = AT.minus(Duration.ofDays(7));
    assertEquals("pump-drift", raised(draft));
    draft.pumpOffSince = AT.minus(Duration.ofDays(7)).plusSeconds(1);
    assertEquals("", raised(draft));
  }

  private static String raised(BenchDraft draft) {
    Conditions conditions = new Conditions(draft.alerts);
    JudgePumpDrift.tell(draft, conditions);
    return DraftBench.told(draft, conditions).stream()
        .map(AlertNotice::code)
        .filter(AlertCode.PUMP_DRIFT.word()::equals)
        .findFirst()
        .orElse("");
  }
}
