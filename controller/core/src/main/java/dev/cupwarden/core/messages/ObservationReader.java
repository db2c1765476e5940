package dev.cupwarden.core.messages;

import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.io.JsonEOFException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.ObjectReader;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quoted;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * Reads one line of {@code advise}: a JSON object, field by field as it streams by. Anything that
 * is not as it should be refuses the whole line with one sentence.
 */
public final class ObservationReader {
  private static final List<String> FIELDS =
      Stream.concat(
              Stream.concat(Stream.of("at"), AmbientReading.fields().stream()),
              Stream.of(
                  "mass_g",
                  "theta",
                  "tank_ml",
                  "leak",
                  "leak_unread",
                  "clock_in_doubt",
                  "orders",
                  "hose_in_doubt",
                  "board_fault",
                  "watch_only"))
          .toList();

  /** Reads one element out of many, so that more may follow it. */
  private static final ObjectReader ELEMENT =
      Json.MAPPER.reader().without(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);

  private static final Pattern TWICE = Pattern.compile("Duplicate field '(.*)'");
  private static final int LONGEST_REASON = 160;

  private ObservationReader() {}

  /**
   * @param line one line without its terminator
   * @param cups names of the cups that are known before this line; those that an {@code add} order
   *     on the line names are known besides
   * @param tanks names of the bench's tanks
   */
  public static Observation read(String line, Set<String> cups, Set<String> tanks)
      throws LineRefused {
    if (line.isBlank()) {
      throw new LineRefused("is blank: expected a JSON object");
    }
    ObservationDraft draft = new ObservationDraft(cups, tanks);
    try (JsonParser json = Json.MAPPER.createParser(line)) {
      requireObject("the line", json.nextToken());
      while (json.nextToken() != JsonToken.END_OBJECT) {
        field(json, draft);
      }
      if (json.nextToken() != null) {
        throw new LineRefused("holds more than one JSON object");
      }
    } catch (JsonProcessingException notJson) {
      throw refused(notJson);
    } catch (IOException impossible) {
      throw new UncheckedIOException("a string cannot fail to be read", impossible);
    }
    return draft.finish();
  }

  private static void field(JsonParser json, ObservationDraft draft)
      throws IOException, LineRefused {
    String field = json.currentName();
    JsonToken value = json.nextToken();
    switch (field) {
      case "at" -> draft.at(text(field, value, json));
      case "mass_g" -> named(field, json, draft::massG);
      case "theta" -> named(field, json, draft::theta);
      case "tank_ml" -> named(field, json, draft::tankMl);
      case "leak" -> draft.leak(truth(field, value));
      case "leak_unread" -> draft.leakUnread(truth(field, value));
      case "clock_in_doubt" -> draft.clockInDoubt(truth(field, value));
      case "hose_in_doubt" -> draft.hoseInDoubt(truth(field, value));
      case "board_fault" -> draft.boardFault(truth(field, value));
      case "watch_only" -> draft.watchOnly(truth(field, value));
      case "orders" -> orders(json, draft);
      default -> draft.ambient(ambient(field), number(field, value, json));
    }
  }

  private static AmbientReading ambient(String field) throws LineRefused {
    return AmbientReading.of(field)
        .orElseThrow(
            () ->
                new LineRefused(
                    "%s is not a known field; known: %s"
                        .formatted(Quoted.text(field), Names.list(FIELDS))));
  }

  /** Takes one value of an object of numbers. */
  private interface Taker {
    void take(String name, double value) throws LineRefused;
  }

  private static void named(String field, JsonParser json, Taker taker)
      throws IOException, LineRefused {
    requireObject(field, json.currentToken());
    while (json.nextToken() != JsonToken.END_OBJECT) {
      String name = json.currentName();
      taker.take(name, number(field + "." + name, json.nextToken(), json));
    }
  }

  private static void orders(JsonParser json, ObservationDraft draft)
      throws IOException, LineRefused {
    if (json.currentToken() != JsonToken.START_ARRAY) {
      throw wrongType("orders", "an array", json.currentToken());
    }
    while (json.nextToken() != JsonToken.END_ARRAY) {
      draft.order(ELEMENT.readTree(json));
    }
  }

  private static double number(String path, JsonToken token, JsonParser json)
      throws IOException, LineRefused {
    if (token == null || !token.isNumeric()) {
      throw wrongType(path, "a number (or no such field)", token);
    }
    return json.getDoubleValue();
  }

  private static String text(String path, JsonToken token, JsonParser json)
      throws IOException, LineRefused {
    if (token != JsonToken.VALUE_STRING) {
      throw wrongType(path, "a string", token);
    }
    return json.getText();
  }

  private static boolean truth(String path, JsonToken token) throws LineRefused {
    if (token == null || !token.isBoolean()) {
      throw wrongType(path, "true or false", token);
    }
    return token == JsonToken.VALUE_TRUE;
  }

  private static void requireObject(String path, JsonToken token) throws LineRefused {
    if (token != JsonToken.START_OBJECT) {
      throw wrongType(path, "a JSON object", token);
    }
  }

  private static LineRefused wrongType(String path, String expected, JsonToken found) {
    return new LineRefused(
        Quoted.line(path, LONGEST_REASON) + ": expected " + expected + ", found " + words(found));
  }

  private static String words(JsonToken token) {
    if (token == null) {
      return "nothing";
    }
    return switch (token) {
      case START_OBJECT -> "an object";
      case START_ARRAY -> "an array";
      case VALUE_STRING -> "a string";
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> "a number";
      case VALUE_TRUE, VALUE_FALSE -> "true or false";
      case VALUE_NULL -> "null";
      default -> "nothing";
    };
  }

  private static LineRefused refused(JsonProcessingException notJson) {
    if (notJson instanceof JsonEOFException) {
      return new LineRefused("is not complete JSON: it ends in the middle");
    }
    if (notJson instanceof StreamConstraintsException) {
      return new LineRefused("is not usable JSON: nested or written beyond any sense");
    }
    Matcher twice = TWICE.matcher(notJson.getOriginalMessage());
    if (twice.lookingAt()) {
      return new LineRefused(Quoted.text(twice.group(1)) + " is given twice");
    }
    String where =
        notJson instanceof JsonParseException && notJson.getLocation() != null
            ? " near column " + notJson.getLocation().getColumnNr()
            : "";
    // The parser also names the switch that would let it pass; that is no help to a grower.
    String reason = notJson.getOriginalMessage().replaceFirst(":? ?\\(?enable .*", "");
    return new LineRefused("is not JSON" + where + ": " + Quoted.line(reason, LONGEST_REASON));
  }
}
