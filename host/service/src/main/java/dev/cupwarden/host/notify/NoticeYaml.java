package dev.cupwarden.host.notify;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.HostException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionEndEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * A notices file as a tree. Aliases and deep nesting are refused before anything is built of them,
 * so that no file can make the host go round in circles.
 */
final class NoticeYaml {
  private static final int DEEPEST = 8;
  private static final long MOST_BYTES = 65_536;

  private NoticeYaml() {}

  static JsonNode read(Path file) {
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw new HostException(file + " is larger than " + MOST_BYTES + " bytes.");
      }
      String text = Files.readString(file);
      LoadSettings settings = LoadSettings.builder().setLabel(file.toString()).build();
      requireSimple(file, new Parse(settings).parseString(text));
      JsonNode node = Json.MAPPER.valueToTree(new Load(settings).loadFromString(text));
      if (node == null || !node.isObject()) {
        throw new HostException(file + ": expected mail or webhook, or both.");
      }
      return node;
    } catch (MarkedYamlEngineException broken) {
      throw new HostException(file + " is not YAML: " + lineOf(broken) + ".", broken);
    } catch (YamlEngineException | IllegalArgumentException broken) {
      throw new HostException(file + " is not YAML that can be read here.", broken);
    } catch (IOException unreadable) {
      throw new HostException("The file " + file + " cannot be read.", unreadable);
    }
  }

  private static void requireSimple(Path file, Iterable<Event> events) {
    int depth = 0;
    for (Event event : events) {
      if (event instanceof AliasEvent) {
        throw new HostException(file + ": aliases (*name) are not understood here.");
      }
      depth += event instanceof CollectionStartEvent ? 1 : 0;
      depth -= event instanceof CollectionEndEvent ? 1 : 0;
      if (depth > DEEPEST) {
        throw new HostException(file + ": nested more than " + DEEPEST + " deep.");
      }
    }
  }

  private static String lineOf(MarkedYamlEngineException broken) {
    String where =
        broken.getProblemMark().map(mark -> "line " + (mark.getLine() + 1) + ", ").orElse("");
    return where
        + String.valueOf(broken.getProblem()).lines().findFirst().orElse("no reason given");
  }
}
