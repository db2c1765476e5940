package dev.cupwarden.core.orders;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.units.Quoted;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** The fields of one order, each read with its own sentence of refusal. */
record OrderFields(JsonNode written) {
  /** Over the wire an order says who gave it and how long it is good for. */
  private static final Set<String> COMMON = Set.of("id", "kind", "by", "issued", "expires");

  private static final Set<String> LIFTABLE = LimitCode.liftable();

  /** In order, for a sentence. */
  static String join(Set<String> words) {
    return String.join(", ", new TreeSet<>(words));
  }

  void refuseUnknown(String kind, Set<String> known) throws OrderRefused {
    for (var names = written.fieldNames(); names.hasNext(); ) {
      String name = names.next();
      if (!COMMON.contains(name) && !known.contains(name)) {
        throw new OrderRefused(
            Quoted.line(name, 40)
                + ": unknown field of an order of kind "
                + kind
                + "; known: "
                + join(known));
      }
    }
  }

  /** A receipt is no place to send back what somebody sent by the page. */
  private static String shown(JsonNode value) {
    return Quoted.line(value.toString(), 40);
  }

  private JsonNode present(String name) {
    JsonNode value = written.get(name);
    return value == null || value.isNull() ? null : value;
  }

  String text(String name) throws OrderRefused {
    return optionalText(name)
        .orElseThrow(() -> new OrderRefused(name + ": expected a text, but it is missing"));
  }

  Optional<String> optionalText(String name) throws OrderRefused {
    JsonNode value = present(name);
    if (value == null) {
      return Optional.empty();
    }
    if (!value.isTextual()) {
      throw new OrderRefused(name + ": expected a text, not " + shown(value));
    }
    return Optional.of(value.textValue());
  }

  /** A value of any kind, as JSON text; {@code null} where it is missing. */
  String anything(String name) {
    JsonNode value = present(name);
    return value == null ? "null" : value.toString();
  }

  double number(String name, double least, double most) throws OrderRefused {
    return optionalNumber(name, least, most)
        .orElseThrow(
            () ->
                new OrderRefused(
                    name
                        + ": expected a number from "
                        + least
                        + " to "
                        + most
                        + ", but it is missing"));
  }

  Optional<Double> optionalNumber(String name, double least, double most) throws OrderRefused {
    JsonNode value = present(name);
    if (value == null) {
      return Optional.empty();
    }
    double number = value.isNumber() ? value.doubleValue() : Double.NaN;
    if (!(number >= least && number <= most)) {
      throw new OrderRefused(
          name + ": expected a number from " + least + " to " + most + ", not " + shown(value));
    }
    return Optional.of(number);
  }

  boolean flag(String name) throws OrderRefused {
    JsonNode value = present(name);
    if (value == null) {
      return false;
    }
    if (!value.isBoolean()) {
      throw new OrderRefused(name + ": expected true or false, not " + shown(value));
    }
    return value.booleanValue();
  }

  Instant time(String name) throws OrderRefused {
    return optionalTime(name)
        .orElseThrow(
            () -> new OrderRefused(name + ": expected an RFC 3339 time, but it is missing"));
  }

  Optional<Instant> optionalTime(String name) throws OrderRefused {
    Optional<String> text = optionalText(name);
    return text.isEmpty() ? Optional.empty() : Optional.of(Rfc3339Time.read(name, text.get()));
  }

  /** A day of the calendar. */
  Optional<LocalDate> optionalDay(String name) throws OrderRefused {
    Optional<String> text = optionalText(name);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.parse(text.get()));
    } catch (DateTimeParseException noDay) {
      throw new OrderRefused(
          name + ": expected a day such as 2027-04-02, not " + Quoted.text(text.get()));
    }
  }

  String oneOf(String name, Set<String> words) throws OrderRefused {
    String word = text(name);
    if (!words.contains(word)) {
      throw new OrderRefused(
          name + ": expected one of " + join(words) + ", not " + Quoted.text(word));
    }
    return word;
  }

  RootStage stage() throws OrderRefused {
    String word = text("stage");
    return RootStage.of(word)
        .orElseThrow(
            () ->
                new OrderRefused(
                    "stage: expected one of struck, white, toughened, circling, not "
                        + Quoted.text(word)));
  }

  Set<String> lifts() throws OrderRefused {
    JsonNode value = present("lift");
    Set<String> lifts = new TreeSet<>();
    if (value == null) {
      return lifts;
    }
    if (!value.isArray()) {
      throw new OrderRefused(
          "lift: expected a list of " + join(LIFTABLE) + ", not " + shown(value));
    }
    for (JsonNode entry : value) {
      if (!entry.isTextual() || !LIFTABLE.contains(entry.textValue())) {
        throw new OrderRefused(
            "lift: " + shown(entry) + " cannot be lifted; a person may lift " + join(LIFTABLE));
      }
      lifts.add(entry.textValue());
    }
    return lifts;
  }
}
