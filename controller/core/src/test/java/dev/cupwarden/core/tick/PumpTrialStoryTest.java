package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A pump that brought nothing to three cups, or whose water went astray, is tried again once a day,
 * by the driest cup.
 */
class PumpTrialStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final List<String> CUPS = List.of("C1", "C2", "C3", "C4", "C5");

  /** The hose is off, and three cups have shown it. */
  private static Story latched() {
    StringBuilder rows = new StringBuilder();
    for (String cup : CUPS) {
      rows.append(
          ("  %s: {vessel: tall, mix: coir-perlite, plant: blackcurrant, struck: 2026-11-14,"
                  + " stage: toughened, cutting: 14 g}\n")
              .formatted(cup));
    }
    String rules = Story.BENCH.substring(0, Story.BENCH.indexOf("cups:"));
    Story story =
        new Story(rules + "cups:\n" + rows, "2027-02-14T09:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (String cup : CUPS) {
      story.with(cup, 240.0 - 4 * CUPS.indexOf(cup));
      story.rateGPerH.put(cup, 0.3);
      story.arrives.put(cup, 0.0);
    }
    while (story.state.pump().latch() == null) {
      story.wait(TICK).look();
      assertTrue(story.at.isBefore(Instant.parse("2027-02-14T12:00:00Z")), "not latched");
    }
    story.passes.clear();
    return story;
  }

  /** Ticks until a pass is put out; how long that took. */
  private static Duration untilPass(Story story) {
    Instant from = story.at;
    int passes = story.passes.size();
    while (story.passes.size() == passes) {
      story.wait(TICK).look();
      assertTrue(story.at.isBefore(from.plus(Duration.ofDays(3))), "no trial");
    }
    return Duration.between(from, story.at);
  }

  @Test
  void trialThatArrivesEndsTheLatchAndThoseOfTheCupsThatShowedIt() {
    Story story = latched();
    CUPS.forEach(cup -> story.arrives.put(cup, 1.0));
    assertEquals(24.0, untilPass(story).toMinutes() / 60.0, 0.2);
    assertEquals(1, story.passes.size());
    assertEquals("C5", story.passes.get(0).cup(), "the driest");
    assertNotNull(story.state.pump().latch(), "not before its weight was read");
    story.wait(TICK).look();
    assertNull(story.state.pump().latch());
    assertTrue(
        story.alerts.stream()
            .anyMatch(
                alert ->
                    alert.code().equals("dose-short")
                        && alert.cup() == null
                        && alert.state().equals("cleared")),
        story.alerts::toString);
    story.run(Duration.ofHours(3));
    for (String cup : CUPS) {
      assertNull(story.state.cups().get(cup).latch(), cup);
      assertTrue(story.givenMl(cup) > 0.0, cup);
    }
  }

  @Test
  void trialThatDoesNotArriveIsFollowedByOneADayToAnotherCup() {
    Story story = latched();
    untilPass(story);
    assertEquals("C5", story.passes.get(0).cup());
    assertTrue(TellPumpWords.of(story, "dose-short").contains("a trial once a day"));
    story.run(Duration.ofHours(1));
    assertNotNull(story.state.pump().latch());
    assertTrue(TellPumpWords.of(story, "dose-short").contains("the last trial, to C5"));
    assertEquals(23.0, untilPass(story).toMinutes() / 60.0, 1.2);
    assertEquals("C4", story.passes.get(1).cup(), "C5's own tube may be shut");
    story.run(Duration.ofDays(10));
    assertTrue(story.passes.size() >= 11 && story.passes.size() <= 13, story.passes.size() + "");
    assertTrue(story.state.alerts().containsKey("dose-short"));
    assertFalse(
        story.alerts.stream()
            .anyMatch(alert -> alert.cup() == null && alert.state().equals("cleared")));
  }

  @Test
  void oneShutTubeDoesNotKeepAPumpThatWorksLatched() {
    Story story = latched();
    CUPS.forEach(cup -> story.arrives.put(cup, 1.0));
    story.arrives.put("C5", 0.0);
    untilPass(story);
    untilPass(story);
    assertNotEquals("C5", story.passes.get(1).cup());
    story.wait(TICK).look();
    assertNull(story.state.pump().latch());
  }

  @Test
  void trialThatNoReadingJudgesHasFailed() {
    Story story = latched();
    CUPS.forEach(cup -> story.arrives.put(cup, 1.0));
    untilPass(story);
    story.massG.remove("C5");
    story.run(Duration.ofHours(1));
    assertNotNull(story.state.pump().latch());
    assertNotNull(story.state.pump().watch().trial().failedAt());
    assertEquals(1, story.passes.size());
  }

  /** Latched since now for that, with a hose that is whole again. */
  private static Story latchedFor(AlertCode code) {
    Story story = latched();
    CUPS.forEach(cup -> story.arrives.put(cup, 1.0));
    story.state = withPumpLatch(story.state, new Latch(code, story.state.at(), 30.0, 3.0));
    return story;
  }

  @Test
  void aPumpThatRunsOnIsForAPersonAloneAndStaysTold() {
    Story story = latchedFor(AlertCode.PUMP_RUNNING_ON);
    story.run(Duration.ofDays(4));
    assertEquals(List.of(), story.passes);
    AlertNotice told =
        story.alerts.stream()
            .filter(alert -> alert.code().equals("pump-running-on") && alert.cup() == null)
            .findFirst()
            .orElseThrow();
    assertTrue(told.whatToDo().startsWith("Nothing is pumped to any cup"), told.whatToDo());
    assertTrue(story.state.alerts().containsKey("pump-running-on"), "for who tells it again");
  }

  @Test
  void aWholePassEndsALatchForWaterThatWentAstray() {
    Story story = latchedFor(AlertCode.VALVE_LEAKING);
    assertEquals(24.0, untilPass(story).toMinutes() / 60.0, 0.2);
    assertEquals(1, story.passes.size());
    assertTrue(TellPumpWords.of(story, "valve-leaking").contains("a trial once a day"));
    story.wait(TICK).look();
    assertNull(story.state.pump().latch());
    story.run(Duration.ofHours(3));
    for (String cup : CUPS) {
      assertTrue(story.givenMl(cup) > 0.0, cup);
    }
  }

  @Test
  void aPassThatCameInPartKeepsItLatchedAndIsTriedByAnotherCupADayLater() {
    Story story = latchedFor(AlertCode.VALVE_LEAKING);
    CUPS.forEach(cup -> story.arrives.put(cup, 0.7));
    untilPass(story);
    story.run(Duration.ofHours(1));
    assertNotNull(story.state.pump().latch());
    assertEquals(1, story.passes.size());
    assertTrue(
        TellPumpWords.of(story, "valve-leaking").contains("of the last trial, to C5, a part"));
    untilPass(story);
    assertEquals("C4", story.passes.get(1).cup());
    story.run(Duration.ofDays(4));
    assertNotNull(story.state.pump().latch());
    assertTrue(story.passes.size() <= 6, "one pass a day may go astray: " + story.passes.size());
  }

  private static BenchState withPumpLatch(BenchState state, Latch latch) {
    return state.with(state.pump().latched(latch));
  }
}
