package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.faults.FaultLevel;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * What the controller's decisions cost in a rehearsal of each world: whole winters, each beside the very same
 * winter with its decisions played back, so that the simulator alone does its work again. Both are
 * taken by the time of this thread on the processor, one after the other, seed by seed.
 */
public final class RehearsalBench {
  private static final int CUPS = 24;
  private static final int DAYS = 120;
  private static final int WARM_UP = 4;
  private static final int SEEDS = 12;

  private final ThreadMXBean threads = ManagementFactory.getThreadMXBean();
  private final Rehearsal rehearsal;
  private final World world;
  private long wholeNanos;
  private long simulatorNanos;

  private RehearsalBench(World world) {
    this.world = world;
    this.rehearsal = new Rehearsal(UsualBench.of(CUPS), DAYS, FaultLevel.COMMON).in(world);
  }

  /** Needs no arguments. */
  public static void main(String[] args) throws SetupException {
    for (World world : World.values()) {
      RehearsalBench bench = new RehearsalBench(world);
      for (int seed = 1; seed <= WARM_UP + SEEDS; seed++) {
        bench.winter(seed, seed > WARM_UP);
      }
      bench.report();
    }
  }

  private void winter(long seed, boolean counts) throws SetupException {
    List<Policy.Decision> decided = new ArrayList<>();
    long begun = threads.getCurrentThreadCpuTime();
    Rehearsal.Outcome whole =
        rehearsal.run(
            (scene, stand, draws) -> {
              Policy own = PolicyKind.CUPWARDEN.make(scene, stand, draws);
              return readings -> {
                Policy.Decision decision = own.decide(readings);
                decided.add(decision);
                return decision;
              };
            },
            seed,
            day -> {});
    long between = threads.getCurrentThreadCpuTime();
    var again = decided.iterator();
    Rehearsal.Outcome played =
        rehearsal.run((scene, stand, draws) -> readings -> again.next(), seed, day -> {});
    long ended = threads.getCurrentThreadCpuTime();
    if (played.figures().waterMl() != whole.figures().waterMl()
        || played.figures().leafCm2() != whole.figures().leafCm2()) {
      throw new IllegalStateException("seed " + seed + ": another winter when played back");
    }
    if (counts) {
      wholeNanos += between - begun;
      simulatorNanos += ended - between;
    }
  }

  private void report() {
    double cupDays = (double) CUPS * DAYS * SEEDS;
    System.out.printf(
        Locale.ROOT,
        "rehearsal, %s world: %,.0f cup-days a second and core; simulator alone %,.0f%n",
        world.word(),
        cupDays / wholeNanos * 1e9,
        cupDays / simulatorNanos * 1e9);
    System.out.printf(
        Locale.ROOT,
        "whole rehearsal: %.2f x the simulator alone, at most 4: %s%n",
        (double) wholeNanos / simulatorNanos,
        wholeNanos <= 4 * simulatorNanos ? "kept" : "BROKEN");
  }
}
