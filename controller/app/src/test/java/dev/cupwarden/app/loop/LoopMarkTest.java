package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.messages.Event;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * The mark beside the journal cannot be written. Before, the tick was written and yet thrown away:
 * orders told as done were lost, and cups that were held were watered.
 */
class LoopMarkTest extends LoopOnABench {
  private Path mark() {
    return folder.resolve("journal.db.tick");
  }

  /** A folder in its place: nothing can be written there, whoever the user is. */
  private void breakMark() throws Exception {
    Files.deleteIfExists(mark());
    Files.createDirectory(mark());
  }

  private List<Event> storeAlerts() throws Exception {
    try (Outbox outbox = Outbox.of(journal)) {
      return outbox.eventsAfter("", 0, 10_000).stream()
          .filter(event -> event.data().path("code").asText().equals("store-full"))
          .toList();
    }
  }

  @Test
  void anOrderToldAsDoneIsDoneAndNothingIsWateredUntilTheMarkIsWritten() throws Exception {
    world.time().advanceBy(Duration.ofHours(3)); // The window is open and cups are dry.
    BenchLoop loop = loop();
    Instant until = time.wall().plus(Duration.ofDays(3));
    Map<String, Double> before = world.tankMl();
    orderedNow("hold", ", \"until\": \"" + until + "\"");
    breakMark();
    assertThrows(JournalException.class, loop::tick);
    assertEquals("done", outcomeOf("hold"));
    for (int i = 0; i < 6; i++) {
      time.until(time.nanos() + bench.tick().toNanos());
      assertThrows(JournalException.class, loop::tick);
    }
    assertEquals(before, world.tankMl(), "nothing is watered");
    assertEquals(1, storeAlerts().size(), "told once");
    Files.delete(mark());
    ticks(loop, 12);
    assertEquals(List.of("*"), last().bench().holds(), "the hold holds");
    assertEquals(before, world.tankMl());
    assertEquals(
        List.of("raised", "cleared"),
        storeAlerts().stream().map(event -> event.data().get("state").asText()).toList());
    assertEquals(List.of("*"), heldAfterARestart());
  }

  private List<String> heldAfterARestart() throws Exception {
    ticks(loop(), 1);
    return last().bench().holds();
  }

  @Test
  void whatWasPutOutWithoutAMarkEndsAsFailedAndIsNotGivenAgain() throws Exception {
    world.time().advanceBy(Duration.ofHours(3));
    BenchLoop loop = loop();
    breakMark();
    assertThrows(JournalException.class, loop::tick);
    List<JournalExport.Pass> put = passes();
    assertFalse(put.isEmpty(), "cups are due");
    assertTrue(put.stream().allMatch(pass -> "failed".equals(pass.outcome())), put::toString);
    Files.delete(mark());
    ticks(loop, 1);
    List<String> first = put.stream().map(JournalExport.Pass::cup).toList();
    assertTrue(
        passes().stream().skip(put.size()).noneMatch(pass -> first.contains(pass.cup())),
        "it counts as given and soaks");
  }
}
