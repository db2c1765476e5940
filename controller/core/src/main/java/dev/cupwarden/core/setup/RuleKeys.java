package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Unit;
import java.time.Duration;
import java.time.LocalTime;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/** The keys {@code place}, {@code watering}, {@code tick}, {@code climate} and {@code lamp}. */
final class RuleKeys {
  private static final Range LATITUDE = Range.of(-90, 90);
  private static final Range LONGITUDE = Range.of(-180, 180);
  private static final Range PASS = Range.of(5, 100, Unit.ML);
  private static final Range SOAK = Range.of(1, 360, Unit.MIN);
  private static final Range TICK = Range.of(10, 86_400, Unit.S);
  private static final Range COLD = Range.of(0, 30, Unit.C);
  private static final Range FROST = Range.of(-10, 15, Unit.C);
  private static final Range HEAT = Range.of(15, 60, Unit.C);
  private static final Duration USUAL_TICK = Duration.ofMinutes(5);

  private RuleKeys() {}

  static Optional<Place> place(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys = written.get().section("latitude", "longitude", "zone");
    return Optional.of(
        new Place(
            keys.need("latitude", "degrees north").number(LATITUDE),
            keys.need("longitude", "degrees east").number(LONGITUDE),
            keys.need("zone", "a time zone such as Europe/London").zone()));
  }

  static WateringRules watering(Optional<Entry> written, Optional<Place> place)
      throws SetupException {
    WateringRules usual = WateringRules.USUAL;
    if (written.isEmpty()) {
      return usual;
    }
    Section keys = written.get().section("window", "pass", "soak");
    Optional<Entry> window = keys.maybe("window");
    Optional<Entry> soak = keys.maybe("soak");
    return new WateringRules(
        window.isPresent() ? window(window.get(), place) : usual.window(),
        keys.quantity("pass", PASS, usual.passMl()),
        soak.isPresent() ? soak.get().duration(SOAK) : usual.soak());
  }

  private static Window window(Entry written, Optional<Place> place) throws SetupException {
    if (written.node() instanceof ScalarNode scalar) {
      if (!scalar.getValue().equals("daylight")) {
        throw written.refuse(
            written.found() + " is not a window: expected daylight, or {from: \"08:00\", to: …}");
      }
      if (place.isEmpty()) {
        throw written.refuse("daylight needs the section place, for sunrise and sunset");
      }
      return new Window.Daylight();
    }
    Section keys = written.section("from", "to");
    LocalTime from = keys.need("from", "a time of day").time();
    LocalTime to = keys.need("to", "a time of day").time();
    if (!from.isBefore(to)) {
      throw written.refuse("from %s is not earlier than to %s".formatted(from, to));
    }
    return new Window.Hours(from, to);
  }

  static Duration tick(Optional<Entry> written) throws SetupException {
    return written.isEmpty() ? USUAL_TICK : written.get().duration(TICK);
  }

  static ClimateRules climate(
      Optional<Entry> written, Optional<Entry> lamp, Optional<Entry> covered)
      throws SetupException {
    Optional<Lamp> lit = lamp.isEmpty() ? Optional.empty() : Optional.of(lamp(lamp.get()));
    ClimateRules usual = ClimateRules.USUAL;
    ClimateRules rules = written.isEmpty() ? usual : climate(written.get(), usual);
    return new ClimateRules(
        rules.coldC(),
        rules.frostC(),
        rules.heatC(),
        rules.rootHeatC(),
        rules.rootCups(),
        lit,
        new ClimateRules.Covers(
            covered.isPresent() && covered.get().trueOrFalse(), rules.covers().liftAt()));
  }

  private static Lamp lamp(Entry written) throws SetupException {
    Section keys = written.section("from", "to");
    LocalTime from = keys.need("from", "the time of day at which it is lit").time();
    LocalTime to = keys.need("to", "the time of day at which it is put out").time();
    if (from.equals(to)) {
      throw written.refuse("from and to are both %s: it burns at no hour, or at all".formatted(to));
    }
    return new Lamp(from, to);
  }

  private static ClimateRules climate(Entry written, ClimateRules usual) throws SetupException {
    Section keys = written.section("cold", "frost", "heat", "root_heat", "root_cups", "lift_cover");
    ClimateRules rules =
        new ClimateRules(
            keys.quantity("cold", COLD, usual.coldC()),
            keys.quantity("frost", FROST, usual.frostC()),
            keys.quantity("heat", HEAT, usual.heatC()),
            keys.quantity("root_heat", HEAT, usual.rootHeatC()),
            rootCups(keys.maybe("root_cups")),
            usual.lamp(),
            new ClimateRules.Covers(false, liftAt(keys.maybe("lift_cover"))));
    if (!(rules.coldC() < rules.rootHeatC())) {
      throw written.refuse(
          "root_heat %s C is not above cold %s C".formatted(rules.rootHeatC(), rules.coldC()));
    }
    if (!(rules.frostC() < rules.coldC() && rules.coldC() < rules.heatC())) {
      throw written.refuse(
          "frost %s C, cold %s C and heat %s C are not in rising order"
              .formatted(rules.frostC(), rules.coldC(), rules.heatC()));
    }
    return rules;
  }

  private static Optional<LocalTime> liftAt(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return ClimateRules.Covers.USUAL.liftAt();
    }
    boolean never =
        written.get().node() instanceof ScalarNode scalar && scalar.getValue().equals("never");
    return never ? Optional.empty() : Optional.of(written.get().time());
  }

  private static Optional<SortedSet<String>> rootCups(Optional<Entry> written)
      throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    SortedSet<String> cups = new TreeSet<>();
    for (Entry cup : written.get().list()) {
      cups.add(cup.text());
    }
    return Optional.of(Collections.unmodifiableSortedSet(cups));
  }

  /** No cup is named that is not there: a slip of the pen would leave a cup to the air's cold. */
  static void refuseStrangers(Optional<Entry> climate, Collection<String> cups)
      throws SetupException {
    Optional<Entry> named =
        climate.isEmpty() ? Optional.empty() : climate.get().named().maybe("root_cups");
    for (Entry cup : named.isPresent() ? named.get().list() : List.<Entry>of()) {
      cup.oneOf("a cup of this bench", cups);
    }
  }
}
