package dev.cupwarden.core.orders;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.setup.RootStage;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads an order as it was written; every refusal names the field and what was expected. */
public final class OrderReader {
  /** Over the wire an order says who gave it and how long it is good for. */
  private static final Set<String> COMMON = Set.of("id", "kind", "by", "issued", "expires");

  private static final Map<String, Set<String>> FIELDS =
      Map.ofEntries(
          Map.entry("hold", Set.of("cup", "until", "feed_only", "rescue")),
          Map.entry("release", Set.of("cup")),
          Map.entry("flush", Set.of("cup", "ml")),
          Map.entry("dose", Set.of("cup", "ml", "strength", "lift")),
          Map.entry("stage", Set.of("cup", "stage")),
          Map.entry("watered", Set.of("cup", "ml", "strength")),
          Map.entry("drained", Set.of("cup", "sure")),
          Map.entry("forget", Set.of("order")),
          Map.entry("away", Set.of("cup")),
          Map.entry("back", Set.of("cup")),
          Map.entry("filled", Set.of("tank", "ml", "feed", "strength")),
          Map.entry("repot", Set.of("cup", "vessel", "mix")),
          Map.entry("clear", Set.of("cup")),
          Map.entry("prime", Set.of("cup", "ml", "tank")),
          Map.entry("retire", Set.of("cup", "because")));

  /** What a person may lift for one dose; nothing lifts the rest. */
  private static final Set<String> LIFTABLE = Set.of("window", "cold", "no-dry-back");

  private static final Set<String> ENDS = Set.of("rooted", "rotted", "dried", "other");

  /** More than a cup holds many times over: a slip of the pen. */
  private static final double MOST_ML = 5000.0;

  /** Three of the largest hoses. */
  private static final double MOST_PRIME_ML = 300.0;

  private static final double MOST_TANK_ML = 1_000_000.0;

  /**
   * The outdoor rate of a label is three times its indoor rate (common practice): nobody means
   * more.
   */
  private static final double MOST_STRENGTH = 4.0;

  private OrderReader() {}

  /** The order's name, as far as it can be read; null otherwise. */
  public static String idOf(JsonNode written) {
    JsonNode id = written.get("id");
    return id != null && id.isTextual() && !id.textValue().isBlank() ? id.textValue() : null;
  }

  /**
   * The order, in range.
   *
   * @throws OrderRefused with one sentence that names the field and what was expected
   */
  public static Order read(JsonNode written) throws OrderRefused {
    if (!written.isObject()) {
      throw new OrderRefused("an order is a JSON object with id and kind");
    }
    String id = idOf(written);
    if (id == null || id.length() > 200) {
      throw new OrderRefused("id: expected a text of 1 to 200 characters");
    }
    Fields fields = new Fields(written);
    String kind = fields.text("kind");
    if (kind.equals("add")) {
      return new Order.Add(id, fields.text("cup"), written);
    }
    Set<String> known = FIELDS.get(kind);
    if (known == null) {
      throw unknown(kind);
    }
    fields.refuseUnknown(kind, known);
    return switch (kind) {
      case "hold" ->
          new Order.SetHold(
              id,
              fields.optionalText("cup"),
              new Hold(fields.time("until"), fields.flag("feed_only"), fields.flag("rescue")));
      case "release" -> new Order.Release(id, fields.optionalText("cup"));
      case "flush" -> new Order.Flush(id, fields.text("cup"), fields.number("ml", 5.0, MOST_ML));
      case "dose" ->
          new Order.HandDose(
              id,
              fields.text("cup"),
              fields.number("ml", 5.0, MOST_ML),
              fields.number("strength", 0.0, MOST_STRENGTH),
              fields.lifts());
      case "stage" -> new Order.SeenStage(id, fields.text("cup"), fields.stage());
      case "watered" ->
          new Order.Watered(
              id,
              fields.text("cup"),
              fields.number("ml", 0.0, MOST_ML),
              fields.number("strength", 0.0, MOST_STRENGTH));
      case "drained" -> new Order.Drained(id, fields.text("cup"), fields.flag("sure"));
      case "forget" -> new Order.Forget(id, fields.text("order"));
      case "away" -> new Order.Away(id, fields.text("cup"));
      case "back" -> new Order.Back(id, fields.text("cup"));
      case "filled" -> filled(id, fields);
      case "repot" ->
          new Order.Repot(id, fields.text("cup"), fields.text("vessel"), fields.text("mix"));
      case "clear" -> new Order.Clear(id, fields.optionalText("cup"));
      case "prime" ->
          new Order.Prime(
              id,
              fields.text("cup"),
              fields.number("ml", 1.0, MOST_PRIME_ML),
              fields.optionalText("tank"));
      case "retire" -> new Order.Retire(id, fields.text("cup"), fields.oneOf("because", ENDS));
      default -> throw new IllegalStateException(kind);
    };
  }

  private static Order filled(String id, Fields fields) throws OrderRefused {
    return new Order.Filled(
        id,
        fields.text("tank"),
        fields.number("ml", 0.0, MOST_TANK_ML),
        fields.optionalText("feed"),
        fields.optionalNumber("strength", 0.0, 200.0));
  }

  private static OrderRefused unknown(String kind) {
    Set<String> kinds = new TreeSet<>(FIELDS.keySet());
    kinds.add("add");
    return new OrderRefused("kind: \"" + kind + "\" is not a kind of order; known: " + join(kinds));
  }

  /**
   * The times within which an order is good.
   *
   * @throws OrderRefused where one is there but is no RFC 3339 time
   */
  public static Order.Validity validity(JsonNode written) throws OrderRefused {
    Fields fields = new Fields(written);
    return new Order.Validity(fields.optionalTime("issued"), fields.optionalTime("expires"));
  }

  private static String join(Set<String> words) {
    return String.join(", ", new TreeSet<>(words));
  }

  /** The fields of one order, each read with its own sentence of refusal. */
  private record Fields(JsonNode written) {
    void refuseUnknown(String kind, Set<String> known) throws OrderRefused {
      for (var names = written.fieldNames(); names.hasNext(); ) {
        String name = names.next();
        if (!COMMON.contains(name) && !known.contains(name)) {
          throw new OrderRefused(
              name + ": unknown field of an order of kind " + kind + "; known: " + join(known));
        }
      }
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
        throw new OrderRefused(name + ": expected a text, not " + value);
      }
      return Optional.of(value.textValue());
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
            name + ": expected a number from " + least + " to " + most + ", not " + value);
      }
      return Optional.of(number);
    }

    boolean flag(String name) throws OrderRefused {
      JsonNode value = present(name);
      if (value == null) {
        return false;
      }
      if (!value.isBoolean()) {
        throw new OrderRefused(name + ": expected true or false, not " + value);
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

    String oneOf(String name, Set<String> words) throws OrderRefused {
      String word = text(name);
      if (!words.contains(word)) {
        throw new OrderRefused(
            name + ": expected one of " + join(words) + ", not \"" + word + "\"");
      }
      return word;
    }

    RootStage stage() throws OrderRefused {
      String word = text("stage");
      return RootStage.of(word)
          .orElseThrow(
              () ->
                  new OrderRefused(
                      "stage: expected one of struck, white, toughened, circling, not \""
                          + word
                          + "\""));
    }

    Set<String> lifts() throws OrderRefused {
      JsonNode value = present("lift");
      Set<String> lifts = new TreeSet<>();
      if (value == null) {
        return lifts;
      }
      if (!value.isArray()) {
        throw new OrderRefused("lift: expected a list of " + join(LIFTABLE) + ", not " + value);
      }
      for (JsonNode entry : value) {
        if (!entry.isTextual() || !LIFTABLE.contains(entry.textValue())) {
          throw new OrderRefused(
              "lift: " + entry + " cannot be lifted; a person may lift " + join(LIFTABLE));
        }
        lifts.add(entry.textValue());
      }
      return lifts;
    }
  }
}
