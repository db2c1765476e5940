package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Outbox;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A bench whose clock is wrong. */
class LoopClockTest extends LoopOnABench {
  @Test
  void holdOfAPersonStandsBesideTheDoubtAndOutlivesIt() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 3);
    world.time().setWall(time.wall().minus(Duration.ofHours(1)));
    ticks(loop, 3);
    assertEquals(List.of(), last().bench().holds());
    Instant until = time.wall().plus(Duration.ofHours(2));
    orderedNow("hold", ", \"rescue\": false, \"until\": \"" + until + "\"");
    ticks(loop, 5);
    assertEquals(List.of("*"), last().bench().holds());
    orderedNow("clear", "");
    ticks(loop, 3);
    assertEquals(List.of("*"), last().bench().holds(), "the doubt is over, the hold is not");
    ticks(loop, 24);
    assertEquals(List.of(), last().bench().holds());
  }

  @Test
  void clockThatJumpsAYearLetsOnlyRescuesThroughUntilAPersonHasLooked() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 30);
    Instant before = reports.get(29).at();
    world.time().setWall(time.wall().plus(Duration.ofDays(365)));
    assertOnlyRescuesUntilTheClockIsRight(loop, before);
  }

  @Test
  void startAYearAheadLetsOnlyRescuesThroughAsWell() throws Exception {
    ticks(loop(), 30);
    Instant before = reports.get(29).at();
    world.time().setWall(time.wall().plus(Duration.ofDays(365)));
    assertOnlyRescuesUntilTheClockIsRight(loop(), before);
  }

  private void assertOnlyRescuesUntilTheClockIsRight(BenchLoop loop, Instant before)
      throws Exception {
    int first = reports.size();
    ticks(loop, 30);
    TickReport last = last();
    assertEquals(150.0, minutes(before, last.at()), 10);
    assertTrue(heldByTheClock());
    assertTrue(
        reports.subList(first, reports.size()).stream()
            .flatMap(report -> report.advice().passes().stream())
            .allMatch(pass -> pass.why().equals("rescue")));
    world.time().setWall(last.at().plus(bench.tick()));
    ticks(loop, 3);
    assertFalse(heldByTheClock());
    assertEquals(List.of("raised", "cleared"), toldOfTheClock());
  }

  private boolean heldByTheClock() {
    return last().cups().stream()
        .flatMap(cup -> cup.reasons().stream())
        .anyMatch(told -> told.code().equals("clock"));
  }

  private List<String> toldOfTheClock() throws Exception {
    try (Outbox outbox = Outbox.of(journal)) {
      return outbox.eventsAfter("", 0, 10_000).stream()
          .filter(event -> event.data().path("code").asText().equals("clock"))
          .map(event -> event.data().get("state").asText())
          .toList();
    }
  }

  @Test
  void doubtThatIsOverIsSoAtTheNextStart() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 3);
    Instant right = time.wall();
    world.time().setWall(right.plus(Duration.ofDays(365)));
    ticks(loop, 3);
    assertTrue(heldByTheClock());
    world.time().setWall(right.plus(Duration.ofHours(1)));
    ticks(loop(), 1);
    assertFalse(heldByTheClock());
    assertEquals(List.of("raised", "cleared"), toldOfTheClock());
  }

  @ParameterizedTest
  @ValueSource(ints = {5, -3})
  void personSetsAClockThatJumpedRightByAnOrderAndIsHeardFromThenOn(int hours) throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 3);
    world.time().setWall(time.wall().plus(Duration.ofHours(hours)));
    ticks(loop, 3);
    assertTrue(heldByTheClock());
    orderedNow("clear", "");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("clear"));
    ticks(loop, 2);
    assertFalse(heldByTheClock());
    Instant until = time.wall().plus(Duration.ofHours(1));
    orderedNow("hold", ", \"until\": \"" + until + "\"");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("hold"));
    ticks(loop, 10);
    assertEquals(List.of("*"), last().bench().holds());
    ticks(loop, 4);
    assertEquals(List.of(), last().bench().holds(), "over after an hour, or a tenth more");
  }

  private static double minutes(Instant from, Instant to) {
    return Duration.between(from, to).toSeconds() / 60.0;
  }
}
