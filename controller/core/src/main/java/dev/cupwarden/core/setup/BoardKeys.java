package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.AirSensor;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.Pump;
import dev.cupwarden.core.setup.BoardWiring.Scale;
import dev.cupwarden.core.setup.BoardWiring.Valve;
import dev.cupwarden.core.units.Unit;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;

/** The key {@code board}, and the keys by which a cup hangs on it. */
final class BoardKeys {
  private static final List<String> SCALE_CHIPS = List.of("nau7802");
  private static final List<String> AIR_CHIPS = List.of("sht3x");

  /** Within what a 24-bit converter can count per gram for any cell of a cup's size. */
  private static final Range COUNTS_PER_G = Range.of(-1_000_000, 1_000_000);

  private static final Range ZERO_COUNTS = Range.of(-8_388_608, 8_388_607);
  private static final Range RATE = Range.of(0.05, 50, Unit.ML_PER_S);

  private BoardKeys() {}

  static Optional<BoardWiring> board(Optional<Entry> written, Collection<String> tanks)
      throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys = written.get().section("bus", "scales", "air", "pump", "valves");
    Optional<Entry> bus = keys.maybe("bus");
    int busNumber = bus.isPresent() ? bus.get().integer(0, 31) : 1;
    BusPlaces places = new BusPlaces();
    GpioLines lines = new GpioLines(busNumber);
    return Optional.of(
        new BoardWiring(
            busNumber,
            scales(keys.maybe("scales"), places),
            air(keys.maybe("air"), places),
            pump(keys.need("pump", "gpio and rate"), lines),
            valves(keys.maybe("valves"), lines, tanks)));
  }

  private static Map<String, Scale> scales(Optional<Entry> written, BusPlaces places)
      throws SetupException {
    Map<String, Scale> scales = new TreeMap<>();
    if (written.isPresent()) {
      for (var named : written.get().safelyNamed().values().entrySet()) {
        scales.put(named.getKey(), scale(named.getValue(), places));
      }
    }
    return scales;
  }

  private static Scale scale(Entry written, BusPlaces places) throws SetupException {
    Section keys = written.section("chip", "address", "mux", "channel", "counts_per_g", "zero");
    String chip = keys.need("chip", "a part number").oneOf("a known weight converter", SCALE_CHIPS);
    BusPlace place = places.take(keys);
    Entry slope = keys.need("counts_per_g", "the scale's calibration");
    double countsPerG = slope.number(COUNTS_PER_G);
    if (countsPerG == 0) {
      throw slope.refuse("is 0: expected the counts that one gram makes, negative if upside down");
    }
    return new Scale(
        chip,
        place,
        countsPerG,
        keys.need("zero", "the counts of the bare scale").number(ZERO_COUNTS));
  }

  private static Optional<AirSensor> air(Optional<Entry> written, BusPlaces places)
      throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys = written.get().section("chip", "address", "mux", "channel");
    return Optional.of(
        new AirSensor(
            keys.need("chip", "a part number").oneOf("a known air sensor", AIR_CHIPS),
            places.take(keys)));
  }

  private static Pump pump(Entry written, GpioLines lines) throws SetupException {
    Section keys = written.section("gpio", "rate");
    return new Pump(
        lines.take(keys), keys.need("rate", "what it moves, such as 1.5 mL/s").quantity(RATE));
  }

  private static Map<String, Valve> valves(
      Optional<Entry> written, GpioLines lines, Collection<String> tanks) throws SetupException {
    Map<String, Valve> valves = new TreeMap<>();
    Map<String, String> valveOfTank = new TreeMap<>();
    if (written.isEmpty()) {
      return valves;
    }
    for (var named : written.get().safelyNamed().values().entrySet()) {
      Section keys = named.getValue().section("gpio", "tank");
      Optional<String> tank = Optional.empty();
      if (keys.maybe("tank").isPresent()) {
        Entry drawn = keys.maybe("tank").get();
        tank = Optional.of(drawn.oneOf("a tank of this bench", tanks));
        String other = valveOfTank.putIfAbsent(tank.get(), named.getKey());
        if (other != null) {
          throw drawn.refuse(drawn.found() + " already has the valve " + other);
        }
      }
      valves.put(named.getKey(), new Valve(lines.take(keys), tank));
    }
    return valves;
  }

  static Cup.Wiring cupWiring(Section keys, Bench bench, Collection<Cup> others)
      throws SetupException {
    Optional<String> scale = keys.maybe("scale").isEmpty() ? Optional.empty() : part(keys, "scale");
    Optional<String> valve = keys.maybe("valve").isEmpty() ? Optional.empty() : part(keys, "valve");
    Optional<String> probe = keys.maybe("probe").isEmpty() ? Optional.empty() : part(keys, "probe");
    if (scale.isPresent()) {
      Entry named = keys.need("scale", "");
      named.oneOf("a scale of the board", board(named, bench).scales().keySet());
      refuseShared(named, scale.get(), others, Cup.Wiring::scale);
    }
    if (valve.isPresent()) {
      Entry named = keys.need("valve", "");
      Map<String, Valve> valves = board(named, bench).valves();
      named.oneOf("a valve of the board", valves.keySet());
      if (valves.get(valve.get()).tank().isPresent()) {
        throw named.refuse(named.found() + " is the valve of a tank, not of a cup");
      }
      refuseShared(named, valve.get(), others, Cup.Wiring::valve);
    }
    if (probe.isPresent()) {
      refuseShared(keys.need("probe", ""), probe.get(), others, Cup.Wiring::probe);
    }
    return new Cup.Wiring(scale, valve, probe);
  }

  private static Optional<String> part(Section keys, String key) throws SetupException {
    return Optional.of(keys.need(key, "").safeName());
  }

  private static BoardWiring board(Entry named, Bench bench) throws SetupException {
    return bench
        .board()
        .orElseThrow(() -> named.refuse(named.found() + " is unknown: there is no section board"));
  }

  private static void refuseShared(
      Entry named, String part, Collection<Cup> others, Function<Cup.Wiring, Optional<String>> of)
      throws SetupException {
    for (Cup other : others) {
      if (of.apply(other.wiring()).equals(Optional.of(part))) {
        throw named.refuse(named.found() + " is already that of cup " + other.name());
      }
    }
  }
}
