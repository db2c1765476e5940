package dev.cupwarden.board;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.ClockedLines;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.BoardWiring.TankScale;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.substrate.ProbeCurve;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/** Every sensor of a bench; one that fails is a fault in the answer and never an exception. */
final class BenchSensors {
  private SortedMap<String, Cup.Wiring> wired;
  private final Pace pace;
  private final ScaleReader scales;
  private final Optional<Sht3x> air;
  private final Optional<Ds18b20> root;
  private final Optional<Ds18b20> outdoor;
  private final LeakLine leak;
  private final SortedMap<String, ProbeInput> probes = new TreeMap<>();
  private final SortedMap<String, TankFloat> floats = new TreeMap<>();
  private final SortedMap<String, TankScale> tankScales = new TreeMap<>();

  private record ProbeInput(Ads1115 converter, int input, ProbeCurve curve) {
    OptionalDouble theta() throws ChipException {
      return curve.theta(converter.volts(input));
    }
  }

  private record TankFloat(WaterSwitch contact, double atMl) {}

  /** A reading of one part, or why there is none. */
  private interface Reading {
    void take() throws ChipException;
  }

  BenchSensors(
      Context pi4j,
      I2cBus bus,
      Bench bench,
      BoardWiring wiring,
      LeakLine leak,
      Pace pace,
      OneWire oneWire)
      throws BoardException {
    this.leak = leak;
    this.wired = bench.wirings();
    this.pace = pace;
    this.scales = new ScaleReader(pace);
    for (Map.Entry<String, BoardWiring.Scale> scale : new TreeMap<>(wiring.scales()).entrySet()) {
      scales.add(
          scale.getKey(), scale.getValue(), converter(pi4j, bus, scale.getKey(), scale.getValue()));
    }
    this.air =
        wiring.air().isPresent()
            ? Optional.of(new Sht3x(bus.at(wiring.air().get().place()), pace))
            : Optional.empty();
    BoardWiring.More more = wiring.more();
    this.root = more.root().map(wired -> new Ds18b20(oneWire, wired.id()));
    this.outdoor = more.outdoor().map(wired -> new Ds18b20(oneWire, wired.id()));
    for (var probe : more.probes().entrySet()) {
      probes.put(probe.getKey(), input(bus, probe.getValue()));
    }
    for (var gauge : more.gauges().entrySet()) {
      String tank = gauge.getKey();
      if (gauge.getValue() instanceof FloatSwitch contact) {
        WaterSwitch opened = WaterSwitch.open(pi4j, "the float of tank " + tank, contact.gpio());
        floats.put(tank, new TankFloat(opened, contact.atMl()));
      } else if (gauge.getValue() instanceof TankScale scale) {
        tankScales.put(tank, scale);
      }
    }
  }

  private WeightConverter converter(Context pi4j, I2cBus bus, String name, BoardWiring.Scale scale)
      throws BoardException {
    if (scale.place() instanceof BusPlace place) {
      return new Nau7802(bus.at(place), pace);
    }
    ClockedLines lines = (ClockedLines) scale.place();
    return BoardContext.open(
        "The lines of scale " + name,
        () -> {
          DigitalOutput clock =
              pi4j.create(
                  DigitalOutput.newConfigBuilder(pi4j)
                      .id("output-" + lines.clockGpio())
                      .name("clock of scale " + name)
                      .address(lines.clockGpio())
                      .initial(DigitalState.LOW)
                      .shutdown(DigitalState.LOW)
                      .build());
          DigitalInput data =
              pi4j.create(
                  DigitalInput.newConfigBuilder(pi4j)
                      .id("input-" + lines.dataGpio())
                      .name("data of scale " + name)
                      .address(lines.dataGpio())
                      .build());
          return new Hx711(clock, data, pace);
        });
  }

  private ProbeInput input(I2cBus bus, BoardWiring.Probe probe) throws BoardException {
    ProbeCurve curve =
        ProbeCurve.through(
            probe.points().stream()
                .map(point -> new ProbeCurve.Point(point.volts(), point.theta()))
                .toList());
    return new ProbeInput(new Ads1115(bus.at(probe.place()), pace), probe.input(), curve);
  }

  /**
   * What a scale's converter counts now: the median of one scan.
   *
   * @throws ChipException when it cannot be read
   */
  double counts(String scale, BoardWiring.Scale wired) throws ChipException {
    ScaleReader.Scan scan = scales.scan();
    Double grams = scan.massG().get(scale);
    if (grams == null) {
      throw new ChipException(
          scan.faults().getOrDefault(scale, "There is no scale " + scale + "."));
    }
    return grams * wired.countsPerG() + wired.zeroCounts();
  }

  /** What a probe shows now, V. */
  double volts(String probe) throws ChipException {
    ProbeInput input = probes.get(probe);
    if (input == null) {
      throw new ChipException("There is no probe " + probe + ".");
    }
    return input.converter().volts(input.input());
  }

  /** From now on these cups stand on the bench. */
  void stand(SortedMap<String, Cup.Wiring> cups) {
    wired = cups;
  }

  /** One scan. */
  BoardReadings read() {
    ScaleReader.Scan scan = scales.scan();
    SortedMap<String, String> faults = new TreeMap<>(scan.faults());
    SortedMap<String, Double> massG = new TreeMap<>();
    wired.forEach(
        (cup, parts) ->
            parts
                .scale()
                .map(scale -> scan.massG().get(scale))
                .ifPresent(grams -> massG.put(cup, grams)));
    Sensed sensed = new Sensed();
    air.ifPresent(chip -> take("air", "Air sensor", faults, () -> sensed.air(chip.measure())));
    root.ifPresent(
        chip -> take("root", "Root thermometer", faults, () -> sensed.rootC(chip.tempC())));
    outdoor.ifPresent(
        chip ->
            take("outdoor", "Outdoor thermometer", faults, () -> sensed.outdoorC(chip.tempC())));
    LeakLine.Seen water = leak.tell();
    water.unread().ifPresent(why -> faults.put(BoardReadings.LEAK, "Leak sensor: " + why));
    return new BoardReadings(
        massG,
        sensed.airC,
        sensed.rhPct,
        sensed.rootC,
        sensed.outdoorC,
        thetas(faults),
        tanks(scan, faults),
        floatsUp(faults),
        water.wet(),
        faults);
  }

  /** What single sensors said so far. */
  private static final class Sensed {
    OptionalDouble airC = OptionalDouble.empty();
    OptionalDouble rhPct = OptionalDouble.empty();
    OptionalDouble rootC = OptionalDouble.empty();
    OptionalDouble outdoorC = OptionalDouble.empty();

    void air(Sht3x.Air seen) {
      airC = OptionalDouble.of(seen.tempC());
      rhPct = OptionalDouble.of(seen.rhPct());
    }

    void rootC(double tempC) {
      rootC = OptionalDouble.of(tempC);
    }

    void outdoorC(double tempC) {
      outdoorC = OptionalDouble.of(tempC);
    }
  }

  private SortedMap<String, Double> thetas(Map<String, String> faults) {
    SortedMap<String, Double> theta = new TreeMap<>();
    for (Map.Entry<String, Cup.Wiring> cup : wired.entrySet()) {
      String name = cup.getValue().probe().orElse(null);
      ProbeInput probe = name == null ? null : probes.get(name);
      if (probe == null) {
        continue;
      }
      take(
          name,
          "Probe " + name,
          faults,
          () ->
              theta.put(
                  cup.getKey(),
                  probe
                      .theta()
                      .orElseThrow(
                          () -> new ChipException("It shows what lies beyond its calibration."))));
    }
    return theta;
  }

  /** By tank scale; and nothing where a float has fallen, whatever is left below it. */
  private SortedMap<String, Double> tanks(ScaleReader.Scan scan, Map<String, String> faults) {
    SortedMap<String, Double> tankMl = new TreeMap<>();
    tankScales.forEach(
        (tank, gauge) -> {
          Double grams = scan.massG().get(gauge.scale());
          if (grams != null) {
            // Water and dilute feed weigh 1 g/mL to within a part in a hundred.
            tankMl.put(tank, Math.max(0, grams - gauge.emptyG()));
          }
        });
    floats.forEach(
        (tank, gauge) ->
            take(
                "float of " + tank,
                "Float of tank " + tank,
                faults,
                () -> {
                  if (!gauge.contact().closed()) {
                    tankMl.put(tank, 0.0);
                  }
                }));
    return tankMl;
  }

  private SortedMap<String, Double> floatsUp(Map<String, String> faults) {
    SortedMap<String, Double> atLeastMl = new TreeMap<>();
    floats.forEach(
        (tank, gauge) ->
            take(
                "float of " + tank,
                "Float of tank " + tank,
                faults,
                () -> {
                  if (gauge.contact().closed()) {
                    atLeastMl.put(tank, gauge.atMl());
                  }
                }));
    return atLeastMl;
  }

  private static void take(String part, String words, Map<String, String> faults, Reading reading) {
    try {
      reading.take();
    } catch (ChipException e) {
      faults.put(part, words + ": " + e.getMessage());
    }
  }
}
