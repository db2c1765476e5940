package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.AirSensor;
import dev.cupwarden.core.setup.BoardWiring.ClockedLines;
import dev.cupwarden.core.setup.BoardWiring.ConverterPlace;
import dev.cupwarden.core.setup.BoardWiring.ExpanderPin;
import dev.cupwarden.core.setup.BoardWiring.Gpio;
import dev.cupwarden.core.setup.BoardWiring.OnTimes;
import dev.cupwarden.core.setup.BoardWiring.OutputPlace;
import dev.cupwarden.core.setup.BoardWiring.PumpWiring;
import dev.cupwarden.core.setup.BoardWiring.Scale;
import dev.cupwarden.core.setup.BoardWiring.Valve;
import dev.cupwarden.core.units.Unit;
import java.time.Duration;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** The key {@code board}: converters, pump and valves; its other sensors are {@link SensorKeys}. */
final class BoardKeys {
  private static final List<String> SCALE_CHIPS = List.of("nau7802", "hx711");
  private static final List<String> AIR_CHIPS = List.of("sht3x");

  /** Within what a 24-bit converter can count per gram for any cell of a cup's size. */
  private static final Range COUNTS_PER_G = Range.of(-1_000_000, 1_000_000);

  private static final Range ZERO_COUNTS = Range.of(-8_388_608, 8_388_607);
  private static final Range ON_TIME = Range.of(1, 86_400, Unit.S);
  private static final Range RATE = Range.of(0.05, 50, Unit.ML_PER_S);

  private BoardKeys() {}

  static Optional<BoardWiring> board(Optional<Entry> written, Collection<String> tanks)
      throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys =
        written
            .get()
            .section(
                "bus",
                "gpio_chip",
                "scales",
                "air",
                "pump",
                "valves",
                "probes",
                "root",
                "outdoor",
                "leak",
                "tanks",
                "heartbeat",
                "clock",
                "mat",
                "without");
    Optional<Entry> bus = keys.maybe("bus");
    int busNumber = bus.isPresent() ? bus.get().integer(0, 31) : 1;
    BusPlaces places = new BusPlaces();
    Optional<String> gpioChip = gpioChip(keys.maybe("gpio_chip"));
    GpioLines lines = gpioChip.isEmpty() ? GpioLines.ofTheHeader(busNumber) : GpioLines.ofAChip();
    Map<String, Scale> scales = scales(keys.maybe("scales"), places, lines);
    return Optional.of(
        new BoardWiring(
            busNumber,
            scales,
            air(keys.maybe("air"), places),
            pump(keys.need("pump", "gpio and rate"), lines),
            valves(keys.maybe("valves"), places, lines, tanks),
            new SensorKeys(places, lines).more(keys, gpioChip, scales.keySet(), tanks)));
  }

  private static Optional<String> gpioChip(Optional<Entry> written) throws SetupException {
    if (written.isPresent() && !Names.isSafe(written.get().text())) {
      throw written.get().refuse(written.get().found() + " is no GPIO chip: " + Names.RULE);
    }
    return written.isEmpty() ? Optional.empty() : Optional.of(written.get().text());
  }

  private static Map<String, Scale> scales(
      Optional<Entry> written, BusPlaces places, GpioLines lines) throws SetupException {
    Map<String, Scale> scales = new TreeMap<>();
    if (written.isPresent()) {
      for (var named : written.get().safelyNamed().values().entrySet()) {
        scales.put(named.getKey(), scale(named.getValue(), places, lines));
      }
    }
    return scales;
  }

  private static Scale scale(Entry written, BusPlaces places, GpioLines lines)
      throws SetupException {
    Section keys = written.named();
    Entry part = keys.need("chip", "a part number");
    String chip = part.oneOf("a known weight converter", SCALE_CHIPS);
    boolean clocked = chip.equals("hx711");
    keys =
        clocked
            ? written.section("chip", "clock", "data", "counts_per_g", "zero")
            : written.section("chip", "address", "mux", "channel", "counts_per_g", "zero");
    ConverterPlace place =
        clocked
            ? new ClockedLines(lines.take(keys, "clock"), lines.take(keys, "data"))
            : places.take(keys);
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

  private static PumpWiring pump(Entry written, GpioLines lines) throws SetupException {
    Optional<Entry> expander = written.named().maybe("expander");
    if (expander.isPresent()) {
      throw expander
          .get()
          .refuse(
              "hangs the pump on the bus, where an expander that falls silent keeps it running:"
                  + " expected gpio, a line of the processor");
    }
    Section keys = written.section("gpio", "rate", "active", "longest");
    return new PumpWiring(
        lines.take(keys),
        keys.need("rate", "what it moves, such as 1.5 mL/s").quantity(RATE),
        activeLow(keys),
        onTimes(keys.maybe("longest")));
  }

  private static OnTimes onTimes(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return OnTimes.USUAL;
    }
    Section keys = written.get().section("pass", "hour", "day");
    return new OnTimes(onTime(keys, "pass"), onTime(keys, "hour"), onTime(keys, "day"));
  }

  private static Optional<Duration> onTime(Section keys, String key) throws SetupException {
    Optional<Entry> written = keys.maybe(key);
    return written.isEmpty() ? Optional.empty() : Optional.of(written.get().duration(ON_TIME));
  }

  private static boolean activeLow(Section keys) throws SetupException {
    Optional<Entry> written = keys.maybe("active");
    return written.isPresent()
        && written.get().oneOf("a level", List.of("high", "low")).equals("low");
  }

  private static Map<String, Valve> valves(
      Optional<Entry> written, BusPlaces places, GpioLines lines, Collection<String> tanks)
      throws SetupException {
    Map<String, Valve> valves = new TreeMap<>();
    Map<String, String> valveOfTank = new TreeMap<>();
    if (written.isEmpty()) {
      return valves;
    }
    for (var named : written.get().safelyNamed().values().entrySet()) {
      Section keys = valveKeys(named.getValue());
      Optional<String> tank = Optional.empty();
      if (keys.maybe("tank").isPresent()) {
        Entry drawn = keys.maybe("tank").get();
        tank = Optional.of(drawn.oneOf("a tank of this bench", tanks));
        String other = valveOfTank.putIfAbsent(tank.get(), named.getKey());
        if (other != null) {
          throw drawn.refuse(drawn.found() + " already has the valve " + other);
        }
      }
      valves.put(named.getKey(), new Valve(output(keys, places, lines), tank));
    }
    return valves;
  }

  private static Section valveKeys(Entry written) throws SetupException {
    return written.named().maybe("expander").isPresent()
        ? written.section("expander", "mux", "channel", "pin", "tank")
        : written.section("gpio", "active", "tank");
  }

  private static OutputPlace output(Section keys, BusPlaces places, GpioLines lines)
      throws SetupException {
    if (keys.maybe("expander").isEmpty()) {
      return new Gpio(lines.take(keys), activeLow(keys));
    }
    int pin = keys.need("pin", "0 to 7").integer(0, 7);
    return new ExpanderPin(places.share(keys, "expander", "pcf8574", "pin " + pin), pin);
  }
}
