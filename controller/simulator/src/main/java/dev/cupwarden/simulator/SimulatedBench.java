package dev.cupwarden.simulator;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.simulator.chips.ChipFault;
import dev.cupwarden.simulator.chips.SimulatedChip;
import dev.cupwarden.simulator.chips.SimulatedI2cBus;
import dev.cupwarden.simulator.chips.SimulatedI2cBus.Place;
import dev.cupwarden.simulator.chips.SimulatedI2cProvider;
import dev.cupwarden.simulator.chips.SimulatedInputProvider;
import dev.cupwarden.simulator.chips.SimulatedNau7802;
import dev.cupwarden.simulator.chips.SimulatedOutputProvider;
import dev.cupwarden.simulator.chips.SimulatedSht3x;
import dev.cupwarden.simulator.chips.SimulatedTca9548a;
import dev.cupwarden.simulator.physics.FeedChemistry;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.physics.SimulatedCup;
import java.time.Instant;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;

/**
 * A bench's world: its cups, tanks, hoses and chips, in virtual time. It outlives the program that
 * runs on it: a new context over the same world is the same bench after a restart.
 *
 * <p>The world moves lazily: it is brought up to the present of {@link #time} whenever a chip is
 * asked or a line is switched. Safe for several threads.
 */
public final class SimulatedBench {
  /** Air is taken as steady for that long. */
  private static final double LONGEST_STEP_S = 300;

  /** A bridge ratio of one gives this code at gain 128. */
  private static final double COUNTS_PER_RATIO = 128.0 * (1 << 24);

  private final Bench bench;
  private final VirtualTime time;
  private final Function<Instant, RoomAir> air;
  private final Map<String, SimulatedCup> cups = new TreeMap<>();
  private final Map<String, LoadCell> cells = new TreeMap<>();
  private final Map<String, Place> places = new TreeMap<>();
  private final CupStand stand;
  private final SimulatedPlumbing plumbing;
  private final SimulatedI2cBus bus = new SimulatedI2cBus();
  private final int busNumber;
  private final Set<Integer> closed = ConcurrentHashMap.newKeySet();
  private long starts;
  private long settledNanos;
  private Instant settledAt;
  private RoomAir airNow;

  private SimulatedBench(
      Bench bench, BoardWiring wiring, long seed, Instant start, Function<Instant, RoomAir> air) {
    this.bench = bench;
    this.time = new VirtualTime(start);
    this.air = air;
    this.airNow = air.apply(start);
    this.settledAt = start;
    this.busNumber = wiring.i2cBus();
    SplittableRandom random = new SplittableRandom(seed);
    for (Cup cup : bench.cups().values()) {
      cups.put(cup.name(), grow(cup, random.nextLong()));
    }
    this.stand = new CupStand(cups);
    this.plumbing = new SimulatedPlumbing(bench, wiring, stand::pour, random.nextLong());
    wire(wiring, random);
  }

  /**
   * A bench as it is wired, its cups freshly watered and drained, in a steady room: 20 °C by day,
   * 17 °C by night, 50 % humidity.
   *
   * @param seed the same seed gives the same world, noise and all
   * @throws IllegalArgumentException when the bench has no wiring, or two chips share a place
   */
  public static SimulatedBench of(Bench bench, long seed, Instant start) {
    return of(bench, seed, start, SimulatedBench::steadyRoom);
  }

  /**
   * The same in air of one's own.
   *
   * @param air asked in order of time, at least every 5 min of it
   */
  public static SimulatedBench of(
      Bench bench, long seed, Instant start, Function<Instant, RoomAir> air) {
    BoardWiring wiring =
        bench
            .board()
            .orElseThrow(
                () -> new IllegalArgumentException("Bench " + bench.name() + " has no board"));
    return new SimulatedBench(bench, wiring, seed, start, air);
  }

  private static RoomAir steadyRoom(Instant at) {
    long hour = Math.floorMod(at.getEpochSecond(), 86_400) / 3600;
    boolean day = hour >= 7 && hour < 22;
    return RoomAir.of(day ? 20 : 17, 50, day ? 19 : 17.5, day ? 80 : 0);
  }

  private SimulatedCup grow(Cup cup, long seed) {
    FeedChemistry chemistry =
        bench.feeds().values().stream()
            .findFirst()
            .map(feed -> FeedChemistry.of(feed, bench.waterEcMsPerCm()))
            .orElseGet(() -> FeedChemistry.plain(bench.waterEcMsPerCm()));
    return new SimulatedCup(
        bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup, chemistry, seed);
  }

  private void wire(BoardWiring wiring, SplittableRandom random) {
    Set<Integer> switches = new HashSet<>();
    for (var scale : new TreeMap<>(wiring.scales()).entrySet()) {
      plugSwitch(scale.getValue().place(), switches);
      String name = scale.getKey();
      LoadCell cell = new LoadCell(airNow.airC(), random.nextLong());
      cells.put(name, cell);
      plug(name, scale.getValue().place(), converter(name, scale.getValue(), cell));
    }
    wiring
        .air()
        .ifPresent(
            sensor -> {
              plugSwitch(sensor.place(), switches);
              plug(
                  "air",
                  sensor.place(),
                  new SimulatedSht3x(time::nanos, () -> airNow().airC(), () -> airNow().rhPct()));
            });
  }

  private void plugSwitch(BusPlace place, Set<Integer> switches) {
    place
        .behind()
        .filter(mux -> switches.add(mux.address()))
        .ifPresent(mux -> bus.plug(Place.trunk(mux.address()), new SimulatedTca9548a()));
  }

  private void plug(String name, BusPlace wired, SimulatedChip chip) {
    Place place =
        wired
            .behind()
            .map(mux -> Place.behind(mux.address(), mux.channel(), wired.address()))
            .orElseGet(() -> Place.trunk(wired.address()));
    bus.plug(place, chip);
    places.put(name, place);
  }

  private SimulatedChip converter(String name, BoardWiring.Scale scale, LoadCell cell) {
    double gPerRatio = COUNTS_PER_RATIO / scale.countsPerG();
    return new SimulatedNau7802(
        time::nanos,
        rate -> {
          double seenG = cell.convert(loadOn(name), gPerRatio, rate);
          return seenG / gPerRatio + scale.zeroCounts() / COUNTS_PER_RATIO;
        });
  }

  /** True load on a scale now, g. */
  private synchronized double loadOn(String scale) {
    settle();
    return bench.cups().values().stream()
        .filter(cup -> cup.wiring().scale().filter(scale::equals).isPresent())
        .mapToDouble(cup -> stand.loadAt(cup.name()))
        .sum();
  }

  private synchronized RoomAir airNow() {
    settle();
    return airNow;
  }

  /** Brings the world up to now. */
  private void settle() {
    double leftS = (time.nanos() - settledNanos) * 1e-9;
    settledNanos = time.nanos();
    while (leftS > 0) {
      double stepS = Math.min(leftS, LONGEST_STEP_S);
      airNow = air.apply(settledAt);
      plumbing.advance(stepS);
      for (SimulatedCup cup : cups.values()) {
        cup.advance(stepS, airNow);
      }
      cells.forEach((scale, cell) -> cell.advance(stepS, sumAt(scale), airNow.airC()));
      settledAt = settledAt.plusNanos(Math.round(stepS * 1e9));
      leftS -= stepS;
    }
  }

  private double sumAt(String scale) {
    double sumG = 0;
    for (Cup cup : bench.cups().values()) {
      if (cup.wiring().scale().filter(scale::equals).isPresent()) {
        sumG += stand.loadAt(cup.name());
      }
    }
    return sumG;
  }

  /** A line switched by the program that was started as the given one; a dead one moves nothing. */
  private synchronized void drive(long byStart, int gpio, boolean high) {
    if (byStart == starts) {
      settle();
      plumbing.drive(gpio, high);
    }
  }

  /**
   * A Pi4J context whose I2C, outputs and inputs are this world's, for a program that starts now;
   * one that ran before has no hold on the lines any more. The caller shuts it down.
   */
  public synchronized Context newContext() {
    long start = ++starts;
    return Pi4J.newContextBuilder()
        .noAutoDetectPlatforms()
        .noAutoDetectProviders()
        .noAutoInject()
        .disableShutdownHook()
        .add(
            new SimulatedI2cProvider(Map.of(busNumber, bus)),
            new SimulatedOutputProvider((gpio, high) -> drive(start, gpio, high)),
            new SimulatedInputProvider(gpio -> !closed.contains(gpio)))
        .build();
  }

  /** The world's time; the water moves with it. */
  public VirtualTime time() {
    return time;
  }

  /** Moves the world on to that time of its wall clock. */
  public synchronized void advanceTo(Instant instant) {
    time.advanceTo(instant);
    settle();
  }

  /** The true cup of that name, as it is now; not for several threads. */
  public synchronized SimulatedCup cup(String name) {
    settle();
    return cups.get(name);
  }

  /** A person at the bench. */
  public synchronized CupStand person() {
    settle();
    return stand;
  }

  /** True volumes in the tanks, mL. */
  public synchronized Map<String, Double> tankMl() {
    settle();
    return plumbing.tankMl();
  }

  /** From now on a tank holds that much, at most its brim. */
  public synchronized void fillTo(String tank, double ml) {
    settle();
    plumbing.fillTo(tank, ml);
  }

  /** Water closes or leaves the contact on an input line, which is pulled up otherwise. */
  public void wet(int gpio, boolean isWet) {
    if (isWet) {
      closed.add(gpio);
    } else {
      closed.remove(gpio);
    }
  }

  /** How many output lines are on now. */
  public synchronized long linesOn() {
    return plumbing.linesOn();
  }

  /** Whether the pump runs now. */
  public synchronized boolean pumpOn() {
    return plumbing.pumpOn();
  }

  /** Breaks the chip of a scale, or the {@code air} sensor; {@code NONE} mends it. */
  public synchronized void breakChip(String part, ChipFault fault) {
    bus.breakChip(placeOf(part), fault);
  }

  /** A dip of the supply at the chip of a scale, or at the {@code air} sensor. */
  public synchronized void interruptPower(String part) {
    bus.interruptPower(placeOf(part));
  }

  /** Breaks the I2C switch at an address. */
  public synchronized void breakSwitch(int address, ChipFault fault) {
    bus.breakChip(Place.trunk(address), fault);
  }

  private Place placeOf(String part) {
    Place place = places.get(part);
    if (place == null) {
      throw new IllegalArgumentException("No part " + part + " on the bus");
    }
    return place;
  }

  /** Breaks a valve; {@code NONE} mends it. */
  public synchronized void breakValve(String valve, ValveFault fault) {
    settle();
    plumbing.breakValve(valve, fault);
  }

  /**
   * The program and its computer lose power: every line falls, as a pulled-down line does, and
   * nothing moves them before a new context is made.
   */
  public synchronized void cutPower() {
    settle();
    starts++;
    bench
        .board()
        .ifPresent(
            wiring -> {
              plumbing.drive(wiring.pump().gpio(), false);
              wiring.valves().values().forEach(valve -> plumbing.drive(valve.gpio(), false));
            });
    places.values().forEach(bus::interruptPower);
  }
}
