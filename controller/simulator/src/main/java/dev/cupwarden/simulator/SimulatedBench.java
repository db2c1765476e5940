package dev.cupwarden.simulator;

import com.pi4j.context.Context;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.TankScale;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.substrate.TaperedCup;
import dev.cupwarden.simulator.physics.FeedChemistry;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.physics.SimulatedCup;
import java.io.IOException;
import java.time.Instant;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
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
  private final Map<String, Cup> setups;
  private final Map<String, LoadCell> cells = new TreeMap<>();
  private final Map<String, TankOnScale> tankOnScale = new TreeMap<>();
  private final CupStand stand;
  private final SimulatedPlumbing plumbing;
  private final BoardWiring wiring;
  private final Electronics electronics;
  private final PumpRunTimer runTimer;
  private final BenchFaults faults;
  private volatile Runnable switched = () -> {};

  /** The bench's weather is that of its room; a porch beside it is so much colder. */
  private static final double PORCH_COLDER_K = 8.0;

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
    this.wiring = wiring;
    this.setups = new TreeMap<>(bench.cups());
    SplittableRandom random = new SplittableRandom(seed);
    for (Cup cup : bench.cups().values()) {
      cups.put(cup.name(), grow(cup, random.nextLong()));
    }
    this.stand = new CupStand(cups);
    this.plumbing = new SimulatedPlumbing(bench, wiring, stand::pour, random.nextLong());
    placeCells(wiring, random);
    this.runTimer = new PumpRunTimer(wiring.more().heartbeat().isPresent());
    this.electronics = new Electronics(wiring, new Felt());
    this.faults = new BenchFaults(electronics, plumbing, cells, this::settled);
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

  /** A heated room: 20 °C by day, 17 °C by night, 50 % humidity, a lamp by day. */
  public static RoomAir steadyRoom(Instant at) {
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

  /** A cell under every scale; one under a tank bears more. */
  private void placeCells(BoardWiring wiring, SplittableRandom random) {
    for (String scale : new TreeMap<>(wiring.scales()).keySet()) {
      cells.put(scale, new LoadCell(airNow.airC(), random.nextLong()));
    }
    wiring
        .more()
        .gauges()
        .forEach(
            (tank, gauge) -> {
              if (gauge instanceof TankScale under) {
                tankOnScale.put(under.scale(), new TankOnScale(tank, under.emptyG()));
              }
            });
  }

  private record TankOnScale(String tank, double emptyG) {}

  /** What the chips feel of this world, always brought up to now. */
  private final class Felt implements Electronics.World {
    @Override
    public long nanos() {
      return time.nanos();
    }

    @Override
    public double bridgeRatio(String scale, double conversionsPerS) {
      BoardWiring.Scale wired = wiring.scales().get(scale);
      double gPerRatio = COUNTS_PER_RATIO / wired.countsPerG();
      double seenG = cells.get(scale).convert(loadOn(scale), gPerRatio, conversionsPerS);
      return seenG / gPerRatio + wired.zeroCounts() / COUNTS_PER_RATIO;
    }

    @Override
    public double airC() {
      return airNow().airC();
    }

    @Override
    public double rhPct() {
      return airNow().rhPct();
    }

    @Override
    public double rootC() {
      return airNow().rootC();
    }

    @Override
    public double outdoorC() {
      return airNow().airC() - PORCH_COLDER_K;
    }

    @Override
    public double theta(String probe) {
      return thetaAt(probe);
    }

    @Override
    public double tankMl(String tank) {
      return SimulatedBench.this.tankMl().get(tank);
    }

    @Override
    public void drivePump(boolean on) {
      switching(() -> plumbing.drivePump(runTimer.drive(on, settledNanos)));
    }

    @Override
    public void heartbeat(boolean high) {
      switching(() -> plumbing.drivePump(runTimer.beat(high, settledNanos)));
    }

    @Override
    public void driveValve(String valve, boolean on) {
      switching(() -> plumbing.driveValve(valve, on));
    }
  }

  private void switching(Runnable change) {
    settled(change);
    switched.run();
  }

  /**
   * Hears of each switching of an output when it is done; what it throws ends the program there.
   */
  public void onSwitch(Runnable heard) {
    switched = heard;
  }

  private synchronized double thetaAt(String probe) {
    settle();
    for (Cup cup : setups.values()) {
      if (cup.wiring().probe().filter(probe::equals).isPresent()) {
        double volumeMl = TaperedCup.of(bench.vessels().get(cup.vessel())).volumeMl();
        return Math.max(0, Math.min(1, cups.get(cup.name()).waterMl() / volumeMl));
      }
    }
    return 0; // in the air
  }

  /** True load on a scale now, g. */
  private synchronized double loadOn(String scale) {
    settle();
    return sumAt(scale);
  }

  private synchronized RoomAir airNow() {
    settle();
    return airNow;
  }

  /** Brings the world up to now. */
  private void settle() {
    long now = time.nanos();
    long fallsNanos = runTimer.fallsAt();
    if (fallsNanos > settledNanos && fallsNanos <= now) {
      settleTo(fallsNanos);
      stopByTimer();
    }
    settleTo(now);
  }

  private void settleTo(long nanos) {
    double leftS = (nanos - settledNanos) * 1e-9;
    settledNanos = nanos;
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

  /** Brings the world up to now, then does that. */
  private synchronized void settled(Runnable change) {
    settle();
    change.run();
  }

  private double sumAt(String scale) {
    TankOnScale tank = tankOnScale.get(scale);
    double sumG = tank == null ? 0 : tank.emptyG() + plumbing.tankMl().get(tank.tank());
    for (Cup cup : setups.values()) {
      if (cup.wiring().scale().filter(scale::equals).isPresent()) {
        sumG += stand.loadAt(cup.name());
      }
    }
    return sumG;
  }

  /**
   * A Pi4J context whose I2C, outputs and inputs are this world's, for a program that starts now;
   * one that ran before has no hold on the lines any more. The caller shuts it down.
   */
  public Context newContext() {
    return electronics.newContext();
  }

  /** What the kernel's file of a one-wire sensor holds now. */
  public byte[] oneWire(String id) throws IOException {
    return electronics.oneWire(id);
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

  /** A person puts a new cup on the bench, freshly watered and drained, its tube in place. */
  public synchronized void place(Cup setup) {
    settle();
    setups.put(setup.name(), setup);
    cups.put(setup.name(), grow(setup, setup.name().hashCode()));
    stand.place(setup.name());
    plumbing.place(setup);
  }

  /** A person takes a cup off the bench for good. */
  public synchronized void takeOut(String cup) {
    settle();
    setups.remove(cup);
    plumbing.takeOut(cup);
    stand.takeOut(cup);
    cups.remove(cup);
  }

  /** True volumes in the tanks, mL. */
  public synchronized Map<String, Double> tankMl() {
    settle();
    return plumbing.tankMl();
  }

  /** What ran out of the waste valve, mL. */
  public synchronized double wasteMl() {
    settle();
    return plumbing.wasteMl();
  }

  /** From now on a tank holds that much, at most its brim. */
  public synchronized void fillTo(String tank, double ml) {
    settle();
    plumbing.fillTo(tank, ml);
  }

  /** How many outputs are on now. */
  public synchronized long linesOn() {
    settle();
    return plumbing.linesOn();
  }

  /** Whether the pump runs now. */
  public synchronized boolean pumpOn() {
    settle();
    return plumbing.pumpOn();
  }

  /** Everything that can be broken here. */
  public BenchFaults faults() {
    return faults;
  }

  /**
   * The program and its computer lose power: every output goes off, as pulled gates do, and nothing
   * moves them before a new context is made.
   */
  public void cutPower() {
    electronics.cutPower();
  }

  /**
   * The program dies and its computer goes on: every line stays at its level for ever, the pump's
   * as well, and nothing moves them before a new context is made.
   */
  public void killProgram() {
    electronics.killProgram();
  }

  /** The pump's line as the world moves on without the program: a pump-run timer lets it fall. */
  private void stopByTimer() {
    if (!runTimer.lets(settledNanos)) {
      plumbing.drivePump(false);
    }
  }
}
