package dev.cupwarden.board;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.ExpanderPin;
import dev.cupwarden.core.setup.BoardWiring.Gpio;
import dev.cupwarden.core.setup.Cup;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * The bench's electronics as one thing: all sensors, the pump and its valves. One thread reads and
 * gives; {@link #allOff} and {@link #close} may be called from any.
 */
public final class BenchBoard implements AutoCloseable {
  private final BoardWiring wiring;
  private final BusMap map;
  private final I2cBus bus;
  private final Outputs outputs;
  private final LeakLine leak;
  private final Plumbing plumbing;
  private final Doser doser;
  private final BenchSensors sensors;

  private BenchBoard(Context pi4j, Bench bench, BoardWiring wiring, Pace pace, OneWire oneWire)
      throws BoardException {
    this.wiring = wiring;
    this.map = BusMap.of(wiring);
    this.plumbing = new Plumbing(bench, wiring);
    checkScales(bench, wiring);
    OnTimeCaps caps = new OnTimeCaps(OnTimeCaps.Caps.of(bench, wiring));
    this.bus = new I2cBus(pi4j, wiring.i2cBus());
    this.outputs = openOutputs(pi4j, bus, wiring, pace, caps);
    this.leak = openLeak(pi4j, wiring, pace);
    this.doser = new Doser(outputs, plumbing, caps, leak, wiring.pump().mlPerS(), pace);
    this.sensors = new BenchSensors(pi4j, bus, bench, wiring, leak, pace, oneWire);
    // What ran when the last program ended is not known here.
    leak.passEnded();
  }

  private static LeakLine openLeak(Context pi4j, BoardWiring wiring, Pace pace)
      throws BoardException {
    Optional<Integer> gpio = wiring.more().leak();
    return new LeakLine(
        gpio.isEmpty()
            ? Optional.empty()
            : Optional.of(WaterSwitch.open(pi4j, "the leak sensor", gpio.get())),
        pace);
  }

  /**
   * Opens every part of the bench's wiring, with all outputs off before anything else is done.
   *
   * @throws BoardException when the bench has no wiring, when two parts claim the same place, or
   *     when a bus or line cannot be opened; a chip that is silent is not that, but a fault of each
   *     reading
   */
  public static BenchBoard open(Context pi4j, Bench bench, Pace pace) throws BoardException {
    return open(pi4j, bench, pace, OneWire.ofKernel());
  }

  /** The same with one-wire sensors of one's own. */
  public static BenchBoard open(Context pi4j, Bench bench, Pace pace, OneWire oneWire)
      throws BoardException {
    BoardWiring wiring =
        bench
            .board()
            .orElseThrow(
                () ->
                    new BoardException(
                        "Bench %s has no board: its wiring is missing.".formatted(bench.name())));
    return new BenchBoard(pi4j, bench, wiring, pace, oneWire);
  }

  /**
   * Where every chip and line of a wiring is, without opening any of it.
   *
   * @throws BoardException when two parts claim the same place, or one is where it cannot be
   */
  public static String busMap(BoardWiring wiring) throws BoardException {
    return BusMap.of(wiring).print();
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

  private static Outputs openOutputs(
      Context pi4j, I2cBus bus, BoardWiring wiring, Pace pace, OnTimeCaps caps)
      throws BoardException {
    OutputLine pump =
        GpioLine.open(pi4j, "the pump", wiring.pump().gpio(), wiring.pump().activeLow());
    Optional<OutputLine> heartbeat =
        wiring.more().heartbeat().isPresent()
            ? Optional.of(
                GpioLine.open(pi4j, "the heartbeat", wiring.more().heartbeat().get(), false))
            : Optional.empty();
    SortedMap<String, OutputLine> valves = new TreeMap<>();
    Map<BusPlace, Pcf8574> expanders = new HashMap<>();
    for (Map.Entry<String, BoardWiring.Valve> valve : new TreeMap<>(wiring.valves()).entrySet()) {
      String name = "valve " + valve.getKey();
      if (valve.getValue().output() instanceof Gpio gpio) {
        valves.put(valve.getKey(), GpioLine.open(pi4j, name, gpio.line(), gpio.activeLow()));
      } else if (valve.getValue().output() instanceof ExpanderPin pin) {
        if (!expanders.containsKey(pin.expander())) {
          expanders.put(pin.expander(), new Pcf8574(bus.at(pin.expander())));
        }
        valves.put(valve.getKey(), expanders.get(pin.expander()).line(name, pin.pin()));
      }
    }
    return new Outputs(
        new Outputs.Lines(
            pump,
            valves,
            wiring.valves().entrySet().stream()
                .filter(valve -> valve.getValue().tank().isPresent())
                .map(Map.Entry::getKey)
                .collect(Collectors.toSet()),
            heartbeat),
        pace,
        caps.perPass());
  }

  /**
   * One scan of all sensors. A part that fails is a fault in the answer, never an exception. All
   * outputs are switched off once more: one that has fallen silent is found before it is needed.
   */
  public BoardReadings read() {
    BoardReadings seen = sensors.read();
    outputs.allOff();
    String part = outputs.pumpStuckOn() ? BoardReadings.PUMP : BoardReadings.OUTPUTS;
    return outputs.stuckOn().map(sentence -> seen.withFault(part, sentence)).orElse(seen);
  }

  /**
   * From now on these cups stand on the bench, by name: those that orders have put there, too. A
   * part that the board does not have is none. By the thread that reads and gives.
   */
  public void stand(SortedMap<String, Cup.Wiring> cups) {
    plumbing.stand(cups);
    sensors.stand(cups);
  }

  /**
   * Tells the on-time caps of passes before this start, which count in their hour and day all the
   * same.
   *
   * @param ago how long before now the pump stopped
   * @param ml what it moved
   */
  public void ranBefore(Duration ago, double ml) {
    doser.ranBefore(ago, ml);
  }

  /** Gives a pass, waiting until it is done or has failed. Beats the dead-man while it waits. */
  public DoseOutcome give(AllowedPass pass) {
    return doser.give(pass);
  }

  /**
   * What a scale's converter counts now, for its calibration.
   *
   * @throws BoardException with one sentence when it cannot be read
   */
  public double scaleCounts(String scale) throws BoardException {
    try {
      BoardWiring.Scale wired = wiring.scales().get(scale);
      return sensors.counts(scale, wired);
    } catch (ChipException e) {
      throw new BoardException(e.getMessage(), e);
    }
  }

  /**
   * What a probe shows now, V, for its calibration.
   *
   * @throws BoardException with one sentence when it cannot be read
   */
  public double probeV(String probe) throws BoardException {
    try {
      return sensors.volts(probe);
    } catch (ChipException e) {
      throw new BoardException(e.getMessage(), e);
    }
  }

  /**
   * Runs the pump from the plain tank through a cup's valve into a measuring vessel, a person
   * standing by, for its calibration. The board's own caps and guard apply; nothing else does, so
   * nothing but a calibration may call it.
   *
   * @return for how long it ran
   * @throws BoardException with one sentence when it did not run for all of that time
   */
  public Duration runPump(String cup, Duration time) throws BoardException {
    DoseOutcome outcome = doser.runPlain(cup, time);
    if (outcome instanceof DoseOutcome.Failed failed) {
      throw new BoardException(failed.reason());
    }
    return time;
  }

  /** Hears, from now on, of each sign of life while a pass is given; must return at once. */
  public void onBeat(Runnable heard) {
    outputs.onBeat(heard);
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
    leak.close();
    bus.close();
  }
}
