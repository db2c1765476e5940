package dev.cupwarden.core.orders;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.season.DayForetold;
import dev.cupwarden.core.setup.BenchChange;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quoted;
import java.util.Collections;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;

/** Reads an order as it was written; every refusal names the field and what was expected. */
public final class OrderReader {
  private static final Map<String, Set<String>> FIELDS =
      Map.ofEntries(
          Map.entry("hold", Set.of("cup", "cups", "until", "feed_only", "rescue")),
          Map.entry("release", Set.of("cup", "cups")),
          Map.entry("flush", Set.of("cup", "ml")),
          Map.entry("dose", Set.of("cup", "cups", "ml", "strength", "lift")),
          Map.entry("stage", Set.of("cup", "cups", "stage")),
          Map.entry("watered", Set.of("cup", "cups", "ml", "strength")),
          Map.entry("drained", Set.of("cup", "sure")),
          Map.entry("forget", Set.of("order")),
          Map.entry("away", Set.of("cup", "cups")),
          Map.entry("back", Set.of("cup", "cups")),
          Map.entry("cover", Set.of("cup", "cups")),
          Map.entry("uncover", Set.of("cup", "cups")),
          Map.entry("filled", Set.of("tank", "ml", "feed", "strength")),
          Map.entry("weather", Set.of("day", "least_c", "most_c", "wind")),
          Map.entry("repot", Set.of("cup", "vessel", "mix")),
          Map.entry("clear", Set.of("cup")),
          Map.entry("later", Set.of("alert", "cup", "tank", "until")),
          Map.entry("change", Set.of("path", "from", "to")),
          Map.entry("prime", Set.of("cup", "ml", "tank")),
          Map.entry("retire", Set.of("cup", "cups", "because")));

  /** What stops water: it comes before all else that was ordered. */
  private static final Set<String> STOPS_WATER = Set.of("hold", "away");

  private static final Set<String> OF_THE_BENCH = Set.of("filled", "weather", "later", "change");

  private static final Set<String> WINDS = Set.of("light", "strong");

  /** Colder or hotter than any place where cuttings are carried out. */
  private static final double LEAST_WEATHER_C = -60.0;

  private static final double MOST_WEATHER_C = 60.0;

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
    return id != null && id.isTextual() && Names.isId(id.textValue()) ? id.textValue() : null;
  }

  /** Whether it asks that something be watered less, so that it should not wait for others. */
  public static boolean stopsWater(JsonNode written) {
    return STOPS_WATER.contains(written.path("kind").asText());
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
    if (id == null) {
      throw new OrderRefused("id: " + Names.ID_RULE);
    }
    OrderForm.check(written);
    OrderFields fields = new OrderFields(written);
    String kind = fields.text("kind");
    if (kind.equals("add")) {
      return new Order.Add(id, fields.text("cup"), written);
    }
    Set<String> known = FIELDS.get(kind);
    if (known == null) {
      throw unknown(kind);
    }
    fields.refuseUnknown(kind, known);
    if (written.has("cups")) {
      return toEach(id, written);
    }
    return OF_THE_BENCH.contains(kind) ? ofTheBench(id, kind, fields) : ofCups(id, kind, fields);
  }

  private static Order ofCups(String id, String kind, OrderFields fields) throws OrderRefused {
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
      case "cover" -> new Order.Cover(id, fields.optionalText("cup"), true);
      case "uncover" -> new Order.Cover(id, fields.optionalText("cup"), false);
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

  private static Order ofTheBench(String id, String kind, OrderFields fields) throws OrderRefused {
    return switch (kind) {
      case "filled" ->
          new Order.Filled(
              id,
              fields.text("tank"),
              fields.number("ml", 0.0, MOST_TANK_ML),
              fields.optionalText("feed"),
              fields.optionalNumber("strength", 0.0, 200.0));
      case "weather" -> weather(id, fields);
      case "change" ->
          new Order.Change(
              id,
              new BenchChange(fields.text("path"), fields.anything("from"), fields.anything("to")));
      case "later" ->
          new Order.Later(
              id,
              fields.text("alert"),
              fields.optionalText("cup"),
              fields.optionalText("tank"),
              fields.time("until"));
      default -> throw new IllegalStateException(kind);
    };
  }

  private static Order weather(String id, OrderFields fields) throws OrderRefused {
    double leastC = fields.number("least_c", LEAST_WEATHER_C, MOST_WEATHER_C);
    double mostC = fields.number("most_c", LEAST_WEATHER_C, MOST_WEATHER_C);
    if (mostC < leastC) {
      throw new OrderRefused("most_c: expected no less than least_c, " + leastC + ", not " + mostC);
    }
    Optional<DayForetold.Wind> wind =
        fields.optionalText("wind").isEmpty()
            ? Optional.empty()
            : Optional.of(
                DayForetold.Wind.valueOf(fields.oneOf("wind", WINDS).toUpperCase(Locale.ROOT)));
    return new Order.Weather(id, fields.optionalDay("day"), leastC, mostC, wind);
  }

  /** One order for each cup that it names, as if each had been written by itself. */
  private static Order toEach(String id, JsonNode written) throws OrderRefused {
    if (written.has("cup")) {
      throw new OrderRefused("cups: stands in place of cup, so name either");
    }
    ObjectNode one = written.deepCopy();
    JsonNode cups = one.remove("cups");
    if (!cups.isArray() || cups.isEmpty()) {
      throw new OrderRefused("cups: expected a list of names of cups");
    }
    SortedMap<String, Order> each = new TreeMap<>();
    for (JsonNode cup : cups) {
      if (!cup.isTextual() || each.containsKey(cup.textValue())) {
        throw new OrderRefused("cups: expected names of cups, each once");
      }
      each.put(cup.textValue(), read(one.put("cup", cup.textValue())));
    }
    return new Order.ToEach(id, Collections.unmodifiableSortedMap(each));
  }

  private static OrderRefused unknown(String kind) {
    Set<String> kinds = new TreeSet<>(FIELDS.keySet());
    kinds.add("add");
    return new OrderRefused(
        "kind: "
            + Quoted.text(kind)
            + " is not a kind of order; known: "
            + OrderFields.join(kinds));
  }

  /**
   * The times within which an order is good.
   *
   * @throws OrderRefused where one is there but is no RFC 3339 time
   */
  public static Order.Validity validity(JsonNode written) throws OrderRefused {
    OrderFields fields = new OrderFields(written);
    return new Order.Validity(fields.optionalTime("issued"), fields.optionalTime("expires"));
  }
}
