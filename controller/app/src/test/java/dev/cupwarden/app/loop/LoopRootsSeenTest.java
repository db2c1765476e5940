package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Json;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Roots that a person saw go to the host with the days between which they were foretold. */
class LoopRootsSeenTest extends LoopOnABench {
  private List<JsonNode> told() throws Exception {
    try (Outbox outbox = Outbox.of(journal)) {
      return outbox.eventsAfter("", 0, 10_000).stream()
          .filter(event -> event.data().path("change").asText().equals("roots-seen"))
          .map(event -> event.data())
          .toList();
    }
  }

  @Test
  void onceAndAsTheyWereToldBefore() throws Exception {
    BenchLoop loop = loop();
    ticks(loop, 2);
    CupStatus before =
        last().cups().stream().filter(cup -> cup.cup().equals("B1")).findFirst().orElseThrow();
    orderedNow("stage", ", \"cup\": \"B1\", \"stage\": \"white\"");
    ticks(loop, 3);
    assertEquals(1, told().size());
    assertEquals("white", told().get(0).get("stage").asText());
    assertEquals("2027-01-10", told().get(0).get("day").asText());
    assertEquals(Json.MAPPER.valueToTree(before.rooting().white()), told().get(0).get("foretold"));
  }
}
