package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Quoted;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionEndEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.DocumentStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.ReaderException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * The plain part of YAML 1.2 that a bench file needs: one document of mappings, lists and scalars.
 * Anchors, aliases, tags and deep nesting are refused before anything is built of them, so that no
 * file can grow in memory beyond its own size.
 */
final class YamlText {
  /**
   * As many cups as a bench may have, with every key, long names and long notes, take half of this.
   */
  static final int MOST_BYTES = 512 * 1024;

  /**
   * The most keys and values. A value of one letter takes a hundred bytes of the heap, so that
   * bytes alone bound nothing; as many cups as a bench may have, with every key, take less than
   * half of this.
   */
  static final int MOST_NODES = 50_000;

  /** The format itself goes four deep. */
  private static final int DEEPEST = 12;

  private final String file;
  private final String text;
  private final LoadSettings settings;

  private YamlText(String file, String text) {
    this.file = file;
    this.text = text;
    this.settings =
        LoadSettings.builder()
            .setLabel(file)
            .setSchema(new CoreSchema())
            .setCodePointLimit(MOST_BYTES)
            // Refused where the keys are read, with their place.
            .setAllowNonScalarKeys(true)
            .build();
  }

  /** The root of the only document in a text. */
  static Entry read(String file, String text) throws SetupException {
    if (text.length() > MOST_BYTES) {
      throw tooLong(file);
    }
    return new YamlText(file, text.startsWith("\uFEFF") ? text.substring(1) : text).root();
  }

  /** Strictly: bytes that are not UTF-8 are refused with their line. */
  static String decode(String file, byte[] bytes) throws SetupException {
    if (bytes.length > MOST_BYTES) {
      throw tooLong(file);
    }
    CharsetDecoder decoder = StandardCharsets.UTF_8.newDecoder();
    CharBuffer decoded = CharBuffer.allocate(bytes.length + 1);
    CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), decoded, true);
    decoded.flip();
    try {
      if (result.isError()) {
        result.throwException();
      }
    } catch (CharacterCodingException notUtf8) {
      String before = decoded.toString();
      long line = before.chars().filter(c -> c == '\n').count() + 1;
      int column = before.length() - (before.lastIndexOf('\n') + 1) + 1;
      throw new SetupException(
          "%s:%d:%d: is not UTF-8 text: save the file as UTF-8".formatted(file, line, column));
    }
    return decoded.toString();
  }

  private static SetupException tooLong(String file) {
    return new SetupException(
        "%s: is larger than a bench file may be: expected at most %d KiB"
            .formatted(file, MOST_BYTES / 1024));
  }

  private Entry root() throws SetupException {
    try {
      refuseWhatIsNotPlain();
      Optional<Node> root = new Compose(settings).composeString(text);
      return new Entry(file, "", root.orElseThrow(this::empty));
    } catch (MarkedYamlEngineException notYaml) {
      throw refuse(notYaml.getProblemMark(), "is not YAML: " + oneLine(notYaml.getProblem()));
    } catch (ReaderException notText) {
      throw new SetupException(
          "%s: is not text: it holds the character U+%04X at position %d"
              .formatted(file, notText.getCodePoint(), notText.getPosition()));
    } catch (YamlEngineException notYaml) {
      throw new SetupException(file + ": is not YAML: " + oneLine(notYaml.getMessage()));
    }
  }

  private void refuseWhatIsNotPlain() throws SetupException {
    int documents = 0;
    int depth = 0;
    int nodes = 0;
    boolean anything = false;
    for (Event event : new Parse(settings).parseString(text)) {
      if (event instanceof DocumentStartEvent && ++documents > 1) {
        throw refuse(event.getStartMark(), "holds a second document: expected only one");
      }
      if (event instanceof CollectionStartEvent && ++depth > DEEPEST) {
        throw refuse(event.getStartMark(), "is nested deeper than any bench file");
      }
      if (event instanceof CollectionEndEvent) {
        depth--;
      }
      if (event instanceof NodeEvent node) {
        if (++nodes > MOST_NODES) {
          throw refuse(
              event.getStartMark(),
              "holds more than a bench file may: expected at most %d keys and values"
                  .formatted(MOST_NODES));
        }
        anything |= !(node instanceof ScalarEvent scalar && scalar.getValue().isEmpty());
        refuseAnchorsAndTags(node);
      }
    }
    if (!anything) {
      throw empty();
    }
  }

  private void refuseAnchorsAndTags(NodeEvent node) throws SetupException {
    if (node instanceof AliasEvent || node.getAnchor().isPresent()) {
      throw refuse(
          node.getStartMark(),
          "anchors (&) and aliases (*) are not read in a bench file: write the value out");
    }
    Optional<String> tag =
        node instanceof ScalarEvent scalar
            ? scalar.getTag()
            : ((CollectionStartEvent) node).getTag();
    if (tag.isPresent()) {
      throw refuse(
          node.getStartMark(),
          "tags such as " + Quoted.text(tag.get()) + " are not read in a bench file");
    }
  }

  private SetupException empty() {
    return new SetupException(
        file + ":1:1: is empty: expected a bench with bench, mixes, vessels and cups");
  }

  private SetupException refuse(Optional<Mark> mark, String what) {
    String place = mark.map(at -> ":" + Entry.lineAndColumn(at)).orElse("");
    return new SetupException(file + place + ": " + what);
  }

  private static String oneLine(String problem) {
    return problem.replaceAll("\\s+", " ").strip();
  }
}
