package dev.cupwarden.board;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.Cup;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * The bench's electronics as one thing: all sensors, the pump and its valves. One thread reads and
 * gives; {@link #allOff} and {@link #close} may be called from any.
 */
public final class BenchBoard implements AutoCloseable {
  private final Bench bench;
  private final BusMap map;
  private final I2cBus bus;
  private final Outputs outputs;
  private final Doser doser;
  private final ScaleReader scales;
  private final Optional<Sht3x> air;

  private BenchBoard(Context pi4j, Bench bench, BoardWiring wiring, Pace pace)
      throws BoardException {
    this.bench = bench;
    this.map = BusMap.of(wiring);
    Plumbing plumbing = new Plumbing(bench, wiring);
    checkScales(bench, wiring);
    OnTimeCaps caps = new OnTimeCaps(OnTimeCaps.Caps.of(bench, wiring));
    this.outputs = openOutputs(pi4j, wiring, pace, caps);
    this.doser = new Doser(outputs, plumbing, caps, wiring.pump().mlPerS(), pace);
    this.bus = new I2cBus(pi4j, wiring.i2cBus());
    this.scales = new ScaleReader(pace);
    for (Map.Entry<String, BoardWiring.Scale> scale : new TreeMap<>(wiring.scales()).entrySet()) {
      I2cPort port = bus.at(scale.getValue().place());
      scales.add(scale.getKey(), scale.getValue(), new Nau7802(port, pace));
    }
    this.air =
        wiring.air().isPresent()
            ? Optional.of(new Sht3x(bus.at(wiring.air().get().place()), pace))
            : Optional.empty();
  }

  /**
   * Opens every part of the bench's wiring, with all outputs off before anything else is done.
   *
   * @throws BoardException when the bench has no wiring, when two parts claim the same place, or
   *     when a bus or line cannot be opened; a chip that is silent is not that, but a fault of each
   *     reading
   */
  public static BenchBoard open(Context pi4j, Bench bench, Pace pace) throws BoardException {
    BoardWiring wiring =
        bench
            .board()
            .orElseThrow(
                () ->
                    new BoardException(
                        "Bench %s has no board: its wiring is missing.".formatted(bench.name())));
    return new BenchBoard(pi4j, bench, wiring, pace);
  }

  private static void checkScales(Bench bench, BoardWiring wiring) throws BoardException {
    for (Cup cup : bench.cups().values()) {
      Optional<String> scale = cup.wiring().scale();
      if (scale.isPresent() && !wiring.scales().containsKey(scale.get())) {
        throw new BoardException(
            "Cup %s names scale %s, which the board does not have."
                .formatted(cup.name(), scale.get()));
      }
    }
  }

  private static Outputs openOutputs(Context pi4j, BoardWiring wiring, Pace pace, OnTimeCaps caps)
      throws BoardException {
    OutputLine pump = GpioLine.open(pi4j, "the pump", wiring.pump().gpio());
    SortedMap<String, OutputLine> valves = new TreeMap<>();
    for (Map.Entry<String, BoardWiring.Valve> valve : new TreeMap<>(wiring.valves()).entrySet()) {
      String name = valve.getKey();
      valves.put(name, GpioLine.open(pi4j, "valve " + name, valve.getValue().gpio()));
    }
    return new Outputs(
        pump,
        valves,
        wiring.valves().entrySet().stream()
            .filter(valve -> valve.getValue().tank().isPresent())
            .map(Map.Entry::getKey)
            .collect(Collectors.toSet()),
        pace,
        caps.perPass());
  }

  /** One scan of all sensors. A part that fails is a fault in the answer, never an exception. */
  public BoardReadings read() {
    ScaleReader.Scan scan = scales.scan();
    SortedMap<String, String> faults = new TreeMap<>(scan.faults());
    SortedMap<String, Double> massG = new TreeMap<>();
    for (Cup cup : bench.cups().values()) {
      cup.wiring().scale().map(scan.massG()::get).ifPresent(grams -> massG.put(cup.name(), grams));
    }
    OptionalDouble airC = OptionalDouble.empty();
    OptionalDouble rhPct = OptionalDouble.empty();
    if (air.isPresent()) {
      try {
        Sht3x.Air seen = air.get().measure();
        airC = OptionalDouble.of(seen.tempC());
        rhPct = OptionalDouble.of(seen.rhPct());
      } catch (ChipException e) {
        faults.put("air", "Air sensor: " + e.getMessage());
      }
    }
    retryStuckOutputs(faults);
    return new BoardReadings(massG, airC, rhPct, OptionalDouble.empty(), false, faults);
  }

  private void retryStuckOutputs(SortedMap<String, String> faults) {
    if (outputs.stuckOn().isPresent()) {
      outputs.allOff();
      outputs.stuckOn().ifPresent(sentence -> faults.put("outputs", sentence));
    }
  }

  /** Gives a pass, waiting until it is done or has failed. Beats the dead-man while it waits. */
  public DoseOutcome give(AllowedPass pass) {
    return doser.give(pass);
  }

  /** Says that the dosing loop is alive; needed every 2 s while any output is on. */
  public void beat() {
    outputs.beat();
  }

  /** Pump off, then every valve shut, now; a pass that runs ends as failed. */
  public void allOff() {
    outputs.trip("All outputs were switched off from outside.");
  }

  /** Every chip and line with its place, one a line, as {@code check} prints it. */
  public String busMap() {
    return map.print();
  }

  /**
   * All outputs off; the lines stay this board's until the Pi4J context, which is the caller's, is
   * shut down.
   */
  @Override
  public void close() {
    allOff();
    bus.close();
  }
}
