package dev.cupwarden.app.calibrate;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.app.SmallFile;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Every calibration that was accepted or taken back, a line each in {@code calibration.jsonl}.
 * Lines are only ever added; what was taken back stays to be seen.
 */
final class History {
  private static final Logger LOG = LoggerFactory.getLogger(History.class);
  private static final String FILE = "calibration.jsonl";

  private final Path file;

  History(Path folder) {
    this.file = folder.resolve(FILE);
  }

  /**
   * Adds one.
   *
   * @param part such as {@code scale s1}
   * @param keys to be written into the bench file, as its own text
   */
  void accepted(Instant at, String part, String keys, String findings) throws IOException {
    ObjectNode line = Json.MAPPER.createObjectNode();
    line.put("at", at.toString()).put("part", part).put("keys", keys).put("findings", findings);
    append(line);
  }

  /** Takes the last one of a part back; the keys that hold again, or none where there are none. */
  Optional<String> undo(Instant at, String part) throws IOException, Refused {
    Deque<String> standing = standing(part);
    if (standing.isEmpty()) {
      throw new Refused("There is no calibration of " + part + " to take back.");
    }
    append(
        Json.MAPPER
            .createObjectNode()
            .put("at", at.toString())
            .put("part", part)
            .put("undo", true));
    standing.removeLast();
    return Optional.ofNullable(standing.peekLast());
  }

  /** The keys that were accepted for a part and not taken back, the oldest first. */
  private Deque<String> standing(String part) throws IOException {
    Deque<String> standing = new ArrayDeque<>();
    for (JsonNode line : lines()) {
      if (!line.path("part").asText().equals(part)) {
        continue;
      }
      if (line.has("undo")) {
        standing.pollLast();
      } else {
        standing.addLast(line.path("keys").asText());
      }
    }
    return standing;
  }

  /** All lines; one that a power cut has torn is left out. */
  List<JsonNode> lines() throws IOException {
    List<JsonNode> lines = new ArrayList<>();
    if (Files.exists(file)) {
      for (String text : SmallFile.text(file).lines().toList()) {
        try {
          lines.add(Json.MAPPER.readTree(text));
        } catch (JsonProcessingException torn) {
          LOG.debug("A torn line in {}", file, torn);
        }
      }
    }
    return lines;
  }

  private void append(JsonNode line) throws IOException {
    boolean begun = Files.exists(file) && Files.size(file) > 0;
    Files.createDirectories(file.toAbsolutePath().getParent());
    // The line feed comes first, so that a torn line stays one line.
    Files.writeString(
        file,
        (begun ? "\n" : "") + line,
        StandardOpenOption.CREATE,
        StandardOpenOption.APPEND,
        StandardOpenOption.SYNC);
  }
}
