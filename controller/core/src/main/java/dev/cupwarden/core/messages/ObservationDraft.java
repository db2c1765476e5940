package dev.cupwarden.core.messages;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quantity;
import dev.cupwarden.core.units.Quoted;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;

/**
 * An observation while it is being read, from whatever format. Each value is held against what it
 * can physically be as it comes in; a mass may be anything finite, as a wild one is its scale's
 * fault and not the line's. Not for more than one thread.
 */
public final class ObservationDraft {
  /** RFC 3339, section 5.6, without leap seconds. */
  private static final Pattern TIMESTAMP =
      Pattern.compile(
          "[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}:[0-9]{2}(\\.[0-9]{1,9})?"
              + "([Zz]|[+-][0-9]{2}:[0-9]{2})");

  /** A thousand litres: more than any tank of a bench. */
  private static final double MOST_TANK_ML = 1_000_000;

  private final Set<String> cups;
  private final Set<String> tanks;
  private Instant at;
  private final Map<AmbientReading, Double> ambient = new EnumMap<>(AmbientReading.class);
  private final SortedMap<String, Double> massG = new TreeMap<>();
  private final SortedMap<String, Double> theta = new TreeMap<>();
  private final SortedMap<String, Double> tankMl = new TreeMap<>();
  private boolean leak;
  private boolean leakUnread;
  private boolean clockInDoubt;
  private boolean hoseInDoubt;
  private boolean boardFault;
  private boolean watchOnly;
  private final List<JsonNode> orders = new ArrayList<>();

  /**
   * @param cups names of the cups that are known before this observation
   * @param tanks names of the bench's tanks
   */
  public ObservationDraft(Set<String> cups, Set<String> tanks) {
    this.cups = cups;
    this.tanks = tanks;
  }

  /** When it was seen. */
  public void at(Instant when) {
    at = when;
  }

  /** When it was seen, as RFC 3339 writes it. */
  public void at(String timestamp) throws LineRefused {
    try {
      if (TIMESTAMP.matcher(timestamp).matches()) {
        at = OffsetDateTime.parse(timestamp).toInstant();
        return;
      }
    } catch (DateTimeException noSuchTime) {
      throw new LineRefused("at: " + Quoted.text(timestamp) + " is a time that does not exist");
    }
    throw new LineRefused(
        "at: %s is not a time: expected RFC 3339, such as 2027-02-14T08:00:00Z"
            .formatted(Quoted.text(timestamp)));
  }

  /** A reading of the whole bench, in the unit that its name ends in. */
  public void ambient(AmbientReading reading, double value) throws LineRefused {
    ambient.put(reading, reading.checked(value));
  }

  /** Gross grams on a cup's scale. */
  public void massG(String cup, double value) throws LineRefused {
    massG.put(cup, finite("mass_g." + shown(cup), value));
  }

  /** Volume fraction at a cup's moisture probe. */
  public void theta(String cup, double value) throws LineRefused {
    theta.put(cup, within("theta." + shown(cup), value, 0, 1, ""));
  }

  /** Millilitres left in a tank. */
  public void tankMl(String tank, double value) throws LineRefused {
    tankMl.put(tank, within("tank_ml." + shown(tank), value, 0, MOST_TANK_ML, "mL"));
  }

  /** Whether there is water where none belongs. */
  public void leak(boolean seen) {
    leak = seen;
  }

  /** Whether the sensor for that cannot be read. */
  public void leakUnread(boolean unread) {
    leakUnread = unread;
  }

  /** Whether the time may be far from the true one. */
  public void clockInDoubt(boolean doubted) {
    clockInDoubt = doubted;
  }

  /** Whether a pass may not have run as it was counted. */
  public void hoseInDoubt(boolean doubted) {
    hoseInDoubt = doubted;
  }

  /** Whether the board could not do as it was told. */
  public void boardFault(boolean faulty) {
    boardFault = faulty;
  }

  /** Whether what it would be given is only told. */
  public void watchOnly(boolean watched) {
    watchOnly = watched;
  }

  /** An order as it was written; what is wrong with it is told by its receipt. */
  public void order(JsonNode order) {
    orders.add(order);
  }

  /** The observation, if all that it must have is there and all names are known. */
  public Observation finish() throws LineRefused {
    if (at == null) {
      throw new LineRefused("at: is missing: expected the time of the readings");
    }
    refuseUnknownCups("mass_g", massG);
    refuseUnknownCups("theta", theta);
    for (String tank : tankMl.keySet()) {
      if (!tanks.contains(tank)) {
        throw unknown("tank_ml", tank, "a tank", tanks);
      }
    }
    return new Observation(
        at,
        value(AmbientReading.AIR_C),
        value(AmbientReading.RH_PCT),
        value(AmbientReading.ROOT_C),
        value(AmbientReading.OUTDOOR_C),
        value(AmbientReading.LIGHT),
        Collections.unmodifiableSortedMap(massG),
        Collections.unmodifiableSortedMap(theta),
        Collections.unmodifiableSortedMap(tankMl),
        leak,
        leakUnread,
        clockInDoubt,
        List.copyOf(orders),
        hoseInDoubt,
        boardFault,
        watchOnly);
  }

  private OptionalDouble value(AmbientReading reading) {
    Double value = ambient.get(reading);
    return value == null ? OptionalDouble.empty() : OptionalDouble.of(value);
  }

  private void refuseUnknownCups(String field, SortedMap<String, Double> values)
      throws LineRefused {
    for (String cup : values.keySet()) {
      if (!cups.contains(cup) && !addedHere(cup)) {
        throw unknown(field, cup, "a cup", cups);
      }
    }
  }

  /** A cup may be weighed on the very line that adds it. */
  private boolean addedHere(String cup) {
    return orders.stream()
        .anyMatch(
            order ->
                order.path("kind").asText().equals("add")
                    && order.path("cup").asText().equals(cup));
  }

  private static LineRefused unknown(String field, String name, String what, Set<String> known) {
    return new LineRefused(
        "%s.%s: %s is not %s of this bench; known: %s"
            .formatted(
                field, shown(name), Quoted.text(name), what, Names.list(new TreeSet<>(known))));
  }

  /** A name as a part of a path. */
  private static String shown(String name) {
    return Quoted.line(name, 40);
  }

  static double within(String path, double value, double least, double most, String unit)
      throws LineRefused {
    finite(path, value);
    if (value < least || value > most) {
      throw new LineRefused(
          "%s: %s is out of range: expected %s to %s%s"
              .formatted(
                  path,
                  value,
                  Quantity.show(least),
                  Quantity.show(most),
                  unit.isEmpty() ? "" : " " + unit));
    }
    return value;
  }

  private static double finite(String path, double value) throws LineRefused {
    if (!Double.isFinite(value)) {
      throw new LineRefused(path + ": is not a finite number");
    }
    return value;
  }
}
