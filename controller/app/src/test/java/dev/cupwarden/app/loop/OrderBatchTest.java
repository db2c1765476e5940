package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Which orders a tick takes. */
class OrderBatchTest {
  private final OrderBatch turn = new OrderBatch();

  private static List<JsonNode> waiting(int others, int stops) {
    List<JsonNode> all = new ArrayList<>();
    for (int i = 0; i < others; i++) {
      all.add(Json.MAPPER.createObjectNode().put("id", "d" + i).put("kind", "dose"));
    }
    for (int i = 0; i < stops; i++) {
      all.add(
          Json.MAPPER
              .createObjectNode()
              .put("id", "h" + i)
              .put("kind", i % 2 == 0 ? "hold" : "away"));
    }
    return all;
  }

  private static long stops(List<JsonNode> orders) {
    return orders.stream().filter(order -> order.get("id").asText().startsWith("h")).count();
  }

  @Test
  void whatStopsWaterComesFirstAndAllOfIt() {
    List<JsonNode> taken = turn.of(waiting(500, 300));
    assertEquals(300, stops(taken));
    assertEquals(300, stops(taken.subList(0, 300)), "before the others");
    assertEquals("d0", taken.get(300).get("id").asText(), "then in the order they came");
  }

  @Test
  void othersAreForFiftyMillisecondsOfWorkAsItWasMeasured() {
    assertEquals(50, turn.of(waiting(500, 0)).size(), "a guess");
    turn.took(0, 20_000_000);
    for (int tick = 0; tick < 20; tick++) {
      turn.took(50, 20_000_000 + 50 * 250_000);
    }
    assertEquals(200, turn.of(waiting(500, 0)).size(), 2, "a quarter of a millisecond each");
    for (int tick = 0; tick < 20; tick++) {
      turn.took(8, 20_000_000 + 8 * 100_000_000L);
    }
    assertEquals(8, turn.of(waiting(500, 0)).size(), "a busy board gets on as well");
  }
}
