package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A winter of the demo as its grower lives it; all of it with {@code -Dwinter.days=118}. */
@Tag("long")
class WinterTest {
  @TempDir Path folder;

  @Test
  void aWinter() throws Exception {
    int days = Integer.getInteger("winter.days", 5);
    long began = System.nanoTime();
    try (Winter winter = new Winter(folder, Duration.ofDays(days))) {
      try {
        winter.await(Duration.ofMinutes(60));
      } finally {
        System.out.println("took " + (System.nanoTime() - began) / 1e9 + " s " + winter.ended());
      }
      List<JsonNode> events = winter.page().events(winter.begins(), winter.ended().plusSeconds(60));
      for (JsonNode event : events) {
        if (event.get("kind").asText().equals("alert")) {
          winter.diary.told(Instant.parse(event.get("at").asText()), event.get("data"));
        }
      }
      StringBuilder out = new StringBuilder(winter.diary.table());
      out.append(winter.truth().told());
      out.append(winter.grower().refused()).append(winter.host().counts()).append("\n");
      out.append(winter.page().tanks()).append("\n").append(winter.page().alerts());
      Files.writeString(Path.of("target", "winter.md"), out);
      StringBuilder doses = new StringBuilder();
      events.stream()
          .filter(event -> event.get("kind").asText().equals("dose"))
          .forEach(event -> doses.append(event).append('\n'));
      Files.writeString(Path.of("target", "winter-doses.jsonl"), doses);
      StringBuilder all = new StringBuilder();
      events.forEach(event -> all.append(event).append('\n'));
      Files.writeString(Path.of("target", "winter-events.jsonl"), all);
    }
  }
}
