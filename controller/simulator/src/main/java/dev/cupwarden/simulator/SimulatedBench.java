package dev.cupwarden.simulator;

import com.pi4j.context.Context;
import dev.cupwarden.core.setup.Bench;
import java.time.Instant;

/**
 * A bench's world: its cups, tanks, hoses and chips, in virtual time. It outlives the program that
 * runs on it: a new context over the same world is the same bench after a restart.
 */
public final class SimulatedBench {
  private final Bench bench;
  private final long seed;
  private final VirtualTime time;

  private SimulatedBench(Bench bench, long seed, Instant start) {
    this.bench = bench;
    this.seed = seed;
    this.time = new VirtualTime(start);
  }

  /**
   * A bench as it is wired, its cups freshly watered and drained.
   *
   * @param seed the same seed gives the same world, noise and all
   * @throws IllegalArgumentException when the bench has no wiring, or two chips share a place
   */
  public static SimulatedBench of(Bench bench, long seed, Instant start) {
    return new SimulatedBench(bench, seed, start);
  }

  /** A Pi4J context whose I2C, outputs and inputs are this world's. The caller shuts it down. */
  public Context newContext() {
    throw new UnsupportedOperationException(bench.name() + seed);
  }

  /** The world's time; the water moves with it. */
  public VirtualTime time() {
    return time;
  }

  /** Moves the world on to that time of its wall clock. */
  public void advanceTo(Instant instant) {
    time.advanceTo(instant);
  }
}
