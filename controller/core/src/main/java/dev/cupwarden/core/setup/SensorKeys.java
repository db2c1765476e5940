package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.ClockChip;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.BoardWiring.HeatMat;
import dev.cupwarden.core.setup.BoardWiring.More;
import dev.cupwarden.core.setup.BoardWiring.Probe;
import dev.cupwarden.core.setup.BoardWiring.ProbePoint;
import dev.cupwarden.core.setup.BoardWiring.TankGauge;
import dev.cupwarden.core.setup.BoardWiring.TankScale;
import dev.cupwarden.core.setup.BoardWiring.Thermometer;
import dev.cupwarden.core.units.Unit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.regex.Pattern;

/** The keys of a board's probes, thermometer, contacts and tank gauges. */
final class SensorKeys {
  private static final List<String> PROBE_CHIPS = List.of("ads1115");
  private static final List<String> THERMOMETER_CHIPS = List.of("ds18b20");

  /** Family code 28 of the DS18B20, then 48 bits, as the kernel writes them. */
  private static final Pattern ONE_WIRE_ID = Pattern.compile("28-[0-9a-f]{12}");

  private static final List<String> CLOCK_CHIPS =
      List.of("ds3231", "ds1307", "pcf8523", "pcf8563", "rv3028");

  /** A chip that goes wrong by more has no working crystal. Our choice. */
  private static final Range DRIFT = Range.of(1, 600, Unit.S);

  /** Roots die above the one, no cut-out is set below the other. Our choice. */
  private static final Range CUT_OUT = Range.of(20, 45, Unit.C);

  /** A word is no reason. Our choice. */
  private static final int LEAST_REASON = 10;

  private static final Range VOLTS = Range.of(0, 3.3);
  private static final Range FLOAT_AT = Range.of(0, 1000, Unit.L);
  private static final Range EMPTY = Range.of(0, 50, Unit.KG);

  private final BusPlaces places;
  private final GpioLines lines;

  SensorKeys(BusPlaces places, GpioLines lines) {
    this.places = places;
    this.lines = lines;
  }

  More more(
      Section board, Optional<String> gpioChip, Collection<String> scales, Collection<String> tanks)
      throws SetupException {
    Optional<Thermometer> root = thermometer(board.maybe("root"));
    return new More(
        probes(board.maybe("probes")),
        root,
        outdoor(board.maybe("outdoor"), root),
        line(board.maybe("leak")),
        gauges(board.maybe("tanks"), scales, tanks),
        line(board.maybe("heartbeat")),
        clock(board.maybe("clock")),
        mat(board.maybe("mat")),
        gpioChip,
        without(board.maybe("without")));
  }

  private static Optional<HeatMat> mat(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Optional<Entry> cutOut = written.get().section("cut_out").maybe("cut_out");
    return Optional.of(
        new HeatMat(
            cutOut.isPresent()
                ? OptionalDouble.of(cutOut.get().quantity(CUT_OUT))
                : OptionalDouble.empty()));
  }

  private static Map<SafetyPart, String> without(Optional<Entry> written) throws SetupException {
    Map<SafetyPart, String> reasons = new EnumMap<>(SafetyPart.class);
    if (written.isPresent()) {
      Section keys = written.get().section(SafetyPart.words().toArray(String[]::new));
      for (var waived : keys.values().entrySet()) {
        reasons.put(SafetyPart.of(waived.getKey()), reason(waived.getValue()));
      }
    }
    return Collections.unmodifiableMap(reasons);
  }

  private static String reason(Entry written) throws SetupException {
    String reason = written.text().strip();
    if (reason.length() < LEAST_REASON) {
      throw written.refuse(
          written.found()
              + " is no reason: expected %d characters or more that say what takes its place"
                  .formatted(LEAST_REASON));
    }
    return reason;
  }

  private static Optional<ClockChip> clock(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys = written.get().section("chip", "drift");
    return Optional.of(
        new ClockChip(
            keys.need("chip", "a part number").oneOf("a known clock chip", CLOCK_CHIPS),
            keys.need("drift", "the most it goes wrong in 30 days, such as 6 s").duration(DRIFT)));
  }

  private Map<String, Probe> probes(Optional<Entry> written) throws SetupException {
    Map<String, Probe> probes = new TreeMap<>();
    if (written.isPresent()) {
      for (var named : written.get().safelyNamed().values().entrySet()) {
        probes.put(named.getKey(), probe(named.getValue()));
      }
    }
    return probes;
  }

  private Probe probe(Entry written) throws SetupException {
    Section keys = written.section("chip", "address", "mux", "channel", "input", "points");
    String chip = keys.need("chip", "a part number").oneOf("a known converter", PROBE_CHIPS);
    int input = keys.need("input", "0 to 3").integer(0, 3);
    BusPlace place = places.share(keys, "address", chip, "input " + input);
    Entry curve = keys.need("points", "two or more of volts and theta");
    List<ProbePoint> points = new ArrayList<>();
    for (Entry point : curve.list()) {
      Section pair = point.section("volts", "theta");
      points.add(
          new ProbePoint(
              pair.need("volts", "what the probe showed").number(VOLTS),
              pair.need("theta", "water, volume fraction").number(Range.FRACTION)));
    }
    refuseTurns(curve, points);
    return new Probe(chip, place, input, List.copyOf(points));
  }

  /** A probe that shows one voltage for two contents cannot be used. */
  private static void refuseTurns(Entry curve, List<ProbePoint> points) throws SetupException {
    List<ProbePoint> ordered =
        points.stream().sorted(Comparator.comparingDouble(ProbePoint::volts)).toList();
    boolean rises = true;
    boolean falls = true;
    for (int i = 1; i < ordered.size(); i++) {
      double step = ordered.get(i).theta() - ordered.get(i - 1).theta();
      boolean further = ordered.get(i).volts() > ordered.get(i - 1).volts();
      rises &= further && step > 0;
      falls &= further && step < 0;
    }
    if (ordered.size() < 2 || !(rises || falls)) {
      throw curve.refuse(
          "is no curve: expected two or more points of which theta always rises, or always falls,"
              + " with volts");
    }
  }

  /** The same thermometer cannot be in a cup and outdoors. */
  private static Optional<Thermometer> outdoor(Optional<Entry> written, Optional<Thermometer> root)
      throws SetupException {
    Optional<Thermometer> outdoor = thermometer(written);
    if (outdoor.isPresent() && outdoor.equals(root)) {
      throw written.get().refuse("is the root thermometer: expected another id");
    }
    return outdoor;
  }

  private static Optional<Thermometer> thermometer(Optional<Entry> written) throws SetupException {
    if (written.isEmpty()) {
      return Optional.empty();
    }
    Section keys = written.get().section("chip", "id");
    Entry id = keys.need("id", "such as 28-0316a2795aff, a name below /sys/bus/w1/devices");
    if (!ONE_WIRE_ID.matcher(id.text()).matches()) {
      throw id.refuse(id.found() + " is not a one-wire id: expected such as 28-0316a2795aff");
    }
    return Optional.of(
        new Thermometer(
            keys.need("chip", "a part number").oneOf("a known thermometer", THERMOMETER_CHIPS),
            id.text()));
  }

  private Optional<Integer> line(Optional<Entry> written) throws SetupException {
    return written.isEmpty()
        ? Optional.empty()
        : Optional.of(lines.take(written.get().section("gpio")));
  }

  private Map<String, TankGauge> gauges(
      Optional<Entry> written, Collection<String> scales, Collection<String> tanks)
      throws SetupException {
    Map<String, TankGauge> gauges = new TreeMap<>();
    Map<String, String> tankOfScale = new TreeMap<>();
    if (written.isEmpty()) {
      return gauges;
    }
    for (var named : written.get().safelyNamed().values().entrySet()) {
      Entry gauge = named.getValue();
      if (!tanks.contains(named.getKey())) {
        throw gauge.refuse("is the gauge of no tank of this bench; known: " + Names.list(tanks));
      }
      if (gauge.named().maybe("scale").isEmpty()) {
        Section keys = gauge.section("gpio", "at");
        gauges.put(
            named.getKey(),
            new FloatSwitch(
                lines.take(keys),
                keys.need("at", "what the tank holds when the float tips").quantity(FLOAT_AT)));
        continue;
      }
      Section keys = gauge.section("scale", "empty");
      Entry scale = keys.need("scale", "");
      String name = scale.oneOf("a scale of the board", scales);
      String other = tankOfScale.putIfAbsent(name, named.getKey());
      if (other != null) {
        throw scale.refuse(scale.found() + " is already under the tank " + other);
      }
      gauges.put(
          named.getKey(),
          new TankScale(name, keys.need("empty", "the empty tank's mass").quantity(EMPTY)));
    }
    return gauges;
  }
}
