package dev.cupwarden.simulator;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.exception.Pi4JException;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.ClockedLines;
import dev.cupwarden.core.setup.BoardWiring.ExpanderPin;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.BoardWiring.Gpio;
import dev.cupwarden.core.setup.BoardWiring.Probe;
import dev.cupwarden.simulator.chips.ChipFault;
import dev.cupwarden.simulator.chips.SimulatedAds1115;
import dev.cupwarden.simulator.chips.SimulatedChip;
import dev.cupwarden.simulator.chips.SimulatedDs18b20;
import dev.cupwarden.simulator.chips.SimulatedHx711;
import dev.cupwarden.simulator.chips.SimulatedI2cBus;
import dev.cupwarden.simulator.chips.SimulatedI2cBus.Place;
import dev.cupwarden.simulator.chips.SimulatedI2cProvider;
import dev.cupwarden.simulator.chips.SimulatedInputProvider;
import dev.cupwarden.simulator.chips.SimulatedNau7802;
import dev.cupwarden.simulator.chips.SimulatedOutputProvider;
import dev.cupwarden.simulator.chips.SimulatedPcf8574;
import dev.cupwarden.simulator.chips.SimulatedSht3x;
import dev.cupwarden.simulator.chips.SimulatedTca9548a;
import java.io.IOException;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Consumer;

/** The chips and lines of a bench, wired as its file says, between the drivers and the world. */
final class Electronics {
  /** What the chips feel and move. */
  interface World {
    long nanos();

    /** What the bridge under a scale gives over its supply, with its noise at that rate. */
    double bridgeRatio(String scale, double conversionsPerS);

    double airC();

    double rhPct();

    double rootC();

    /** Where cups are carried out to. */
    double outdoorC();

    /** Water of the cup a probe is in, volume fraction. */
    double theta(String probe);

    /** True volume in a tank, mL. */
    double tankMl(String tank);

    void drivePump(boolean on);

    void heartbeat(boolean high);

    void driveValve(String valve, boolean on);
  }

  private static final double NAU7802_RATE = 10;

  private final BoardWiring wiring;
  private final World world;
  private final SimulatedI2cBus bus = new SimulatedI2cBus();
  private final Map<String, Place> places = new TreeMap<>();
  private final Map<Integer, Consumer<Boolean>> loads = new HashMap<>();
  private final Map<Integer, SimulatedHx711> clockedData = new HashMap<>();
  private final Map<String, SimulatedHx711> clocked = new TreeMap<>();
  private final Map<Integer, String> tankOfFloat = new HashMap<>();
  private final Set<Integer> closed = ConcurrentHashMap.newKeySet();
  private final Set<Integer> cut = ConcurrentHashMap.newKeySet();
  private final Set<Integer> unreadable = ConcurrentHashMap.newKeySet();
  private final Optional<SimulatedDs18b20> root;
  private final Map<String, SimulatedDs18b20> thermometers = new HashMap<>();
  private long starts;

  Electronics(BoardWiring wiring, World world) {
    this.wiring = wiring;
    this.world = world;
    Set<Integer> switches = new HashSet<>();
    for (var scale : new TreeMap<>(wiring.scales()).entrySet()) {
      converter(scale.getKey(), scale.getValue(), switches);
    }
    wiring
        .air()
        .ifPresent(
            sensor ->
                plug(
                    "air",
                    sensor.place(),
                    new SimulatedSht3x(world::nanos, world::airC, world::rhPct),
                    switches));
    probes(switches);
    outputs(switches);
    wiring
        .more()
        .gauges()
        .forEach(
            (tank, gauge) -> {
              if (gauge instanceof FloatSwitch contact) {
                tankOfFloat.put(contact.gpio(), tank);
              }
            });
    this.root = wiring.more().root().map(wired -> new SimulatedDs18b20(world::rootC));
    wiring.more().root().ifPresent(wired -> thermometers.put(wired.id(), root.orElseThrow()));
    wiring
        .more()
        .outdoor()
        .ifPresent(wired -> thermometers.put(wired.id(), new SimulatedDs18b20(world::outdoorC)));
  }

  private void converter(String name, BoardWiring.Scale scale, Set<Integer> switches) {
    if (scale.place() instanceof BusPlace place) {
      plug(
          name,
          place,
          new SimulatedNau7802(world::nanos, rate -> world.bridgeRatio(name, rate)),
          switches);
    } else if (scale.place() instanceof ClockedLines lines) {
      SimulatedHx711 chip =
          new SimulatedHx711(world::nanos, () -> world.bridgeRatio(name, NAU7802_RATE));
      loads.put(lines.clockGpio(), chip::clock);
      clockedData.put(lines.dataGpio(), chip);
      clocked.put(name, chip);
    }
  }

  private void probes(Set<Integer> switches) {
    Map<BusPlace, Map<Integer, String>> byChip = new HashMap<>();
    wiring
        .more()
        .probes()
        .forEach(
            (name, probe) ->
                byChip
                    .computeIfAbsent(probe.place(), place -> new HashMap<>())
                    .put(probe.input(), name));
    byChip.forEach(
        (place, inputs) -> {
          SimulatedChip chip =
              new SimulatedAds1115(
                  world::nanos, input -> inputs.containsKey(input) ? volts(inputs.get(input)) : 0);
          inputs.values().forEach(name -> places.put(name, at(place)));
          plug("probes at " + place, place, chip, switches);
        });
  }

  /** The probe's own curve, backwards; beyond its ends as at them. */
  private double volts(String name) {
    Probe probe = wiring.more().probes().get(name);
    double theta = world.theta(name);
    var points = new TreeMap<Double, Double>();
    probe.points().forEach(point -> points.put(point.theta(), point.volts()));
    var below = points.floorEntry(theta);
    var above = points.ceilingEntry(theta);
    if (below == null || above == null) {
      return (below == null ? above : below).getValue();
    }
    double span = above.getKey() - below.getKey();
    double part = span == 0 ? 0 : (theta - below.getKey()) / span;
    return below.getValue() + part * (above.getValue() - below.getValue());
  }

  private void outputs(Set<Integer> switches) {
    boolean pumpLow = wiring.pump().activeLow();
    loads.put(wiring.pump().gpio(), high -> world.drivePump(high != pumpLow));
    wiring.more().heartbeat().ifPresent(gpio -> loads.put(gpio, world::heartbeat));
    Map<BusPlace, Map<Integer, String>> expanders = new HashMap<>();
    wiring
        .valves()
        .forEach(
            (name, valve) -> {
              if (valve.output() instanceof Gpio gpio) {
                loads.put(gpio.line(), high -> world.driveValve(name, high != gpio.activeLow()));
              } else if (valve.output() instanceof ExpanderPin pin) {
                expanders
                    .computeIfAbsent(pin.expander(), place -> new HashMap<>())
                    .put(pin.pin(), name);
              }
            });
    expanders.forEach(
        (place, pins) ->
            plug(
                "expander 0x%02x".formatted(place.address()),
                place,
                new SimulatedPcf8574(
                    levels ->
                        pins.forEach(
                            (pin, valve) -> world.driveValve(valve, (levels >> pin & 1) == 0))),
                switches));
  }

  private void plug(String name, BusPlace wired, SimulatedChip chip, Set<Integer> switches) {
    wired
        .behind()
        .filter(mux -> switches.add(mux.address()))
        .ifPresent(mux -> bus.plug(Place.trunk(mux.address()), new SimulatedTca9548a()));
    bus.plug(at(wired), chip);
    places.put(name, at(wired));
  }

  private static Place at(BusPlace wired) {
    return wired
        .behind()
        .map(mux -> Place.behind(mux.address(), mux.channel(), wired.address()))
        .orElseGet(() -> Place.trunk(wired.address()));
  }

  /** A context for a program that starts now; one that ran before has no hold on the lines. */
  synchronized Context newContext() {
    long start = ++starts;
    return Pi4J.newContextBuilder()
        .noAutoDetectPlatforms()
        .noAutoDetectProviders()
        .noAutoInject()
        .disableShutdownHook()
        .add(
            new SimulatedI2cProvider(Map.of(wiring.i2cBus(), bus)),
            new SimulatedOutputProvider((gpio, high) -> drive(start, gpio, high)),
            new SimulatedInputProvider(this::high))
        .build();
  }

  /** A line switched by the program of the given start; a dead one moves nothing. */
  private void drive(long byStart, int gpio, boolean high) {
    synchronized (this) {
      if (byStart != starts) {
        return;
      }
    }
    loads.getOrDefault(gpio, level -> {}).accept(high);
  }

  /** The level of an input line; a line with nothing on it is pulled up. */
  private boolean high(int gpio) {
    if (unreadable.contains(gpio)) {
      throw new Pi4JException("line " + gpio + " does not answer");
    }
    if (clockedData.containsKey(gpio)) {
      return clockedData.get(gpio).data();
    }
    if (cut.contains(gpio) || closed.contains(gpio)) {
      return cut.contains(gpio);
    }
    if (tankOfFloat.containsKey(gpio)) {
      String tank = tankOfFloat.get(gpio);
      FloatSwitch contact = (FloatSwitch) wiring.more().gauges().get(tank);
      return world.tankMl(tank) < contact.atMl();
    }
    return true;
  }

  void cutWire(int gpio, boolean isCut) {
    if (isCut) {
      cut.add(gpio);
    } else {
      cut.remove(gpio);
    }
  }

  void loseLine(int gpio, boolean isLost) {
    if (isLost) {
      unreadable.add(gpio);
    } else {
      unreadable.remove(gpio);
    }
  }

  void wet(int gpio, boolean isWet) {
    if (isWet) {
      closed.add(gpio);
    } else {
      closed.remove(gpio);
    }
  }

  /** What the kernel's file of a one-wire sensor holds now. */
  byte[] oneWire(String id) throws IOException {
    if (!thermometers.containsKey(id)) {
      throw new IOException("no such sensor: " + id);
    }
    return thermometers.get(id).slaveFile();
  }

  void breakRoot(SimulatedDs18b20.Fault fault) {
    root.orElseThrow(() -> new IllegalArgumentException("No root thermometer")).breakWith(fault);
  }

  void breakChip(String part, ChipFault fault) {
    if (clocked.containsKey(part)) {
      clocked.get(part).breakWith(fault);
      return;
    }
    bus.breakChip(placeOf(part), fault);
  }

  void interruptPower(String part) {
    bus.interruptPower(placeOf(part));
  }

  void breakSwitch(int address, ChipFault fault) {
    bus.breakChip(Place.trunk(address), fault);
  }

  private Place placeOf(String part) {
    Place place = places.get(part);
    if (place == null) {
      throw new IllegalArgumentException("No part " + part + " on the bus");
    }
    return place;
  }

  /** The program that ran has no hold on the lines any more; they stay as they are. */
  synchronized void killProgram() {
    starts++;
  }

  /** The computer and all chips lose power; pulls on every gate switch what hangs there off. */
  void cutPower() {
    killProgram();
    world.drivePump(false);
    wiring.valves().keySet().forEach(valve -> world.driveValve(valve, false));
    Set.copyOf(places.values()).forEach(bus::interruptPower);
  }
}
