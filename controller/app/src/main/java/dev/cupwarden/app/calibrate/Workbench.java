package dev.cupwarden.app.calibrate;

import com.pi4j.context.Context;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.clock.BenchTime;
import dev.cupwarden.app.clock.RealTime;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardContext;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.board.OneWire;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.substrate.TaperedCup;
import dev.cupwarden.simulator.SimulatedBench;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;

/**
 * The board under calibration. On a simulated one the person is simulated, too: weights are put on,
 * cups are watered, and what was measured is known.
 */
final class Workbench implements AutoCloseable {
  private static final int LONGEST_DRYING_H = 2000;

  private final Bench bench;
  private final Optional<SimulatedBench> world;
  private final BenchTime time;
  private final Context context;
  private final BenchBoard board;

  Workbench(Bench bench, boolean simulate, long seed) throws BoardException {
    this.bench = bench;
    if (simulate) {
      SimulatedBench made = SimulatedBench.of(bench, seed, Instant.now());
      this.world = Optional.of(made);
      this.time = new AcceleratedTime(made.time(), AcceleratedTime.UNBOUNDED);
      this.context = made.newContext();
    } else {
      this.world = Optional.empty();
      this.time = new RealTime();
      this.context = BoardContext.real(bench);
    }
    OneWire wire = world.isPresent() ? world.get()::oneWire : OneWire.ofKernel();
    this.board = BenchBoard.open(context, bench, time, wire);
  }

  Instant now() {
    return time.wall();
  }

  double counts(String scale) throws BoardException {
    return board.scaleCounts(scale);
  }

  double volts(String probe) throws BoardException {
    return board.probeV(probe);
  }

  void runPump(String cup, Duration span) throws BoardException {
    board.runPump(cup, span);
  }

  /** On a simulated bench, puts weights on a scale in place of its cup. */
  void load(String scale, double grams) {
    world.ifPresent(
        made ->
            cupOf(cup -> cup.wiring().scale(), scale)
                .ifPresent(
                    cup -> {
                      made.person().lift(cup.name());
                      made.person().lean(cup.name(), grams);
                      made.time().advanceBy(Duration.ofSeconds(20));
                    }));
  }

  /** On a simulated bench, lets the probe's cup dry, or waters it, to about that content. */
  void moisten(String probe, double theta) {
    world.ifPresent(
        made ->
            cupOf(cup -> cup.wiring().probe(), probe)
                .ifPresent(
                    cup -> {
                      for (int hour = 0; hour < LONGEST_DRYING_H; hour++) {
                        if (made.cup(cup.name()).waterMl() <= theta * volumeMl(cup)) {
                          break;
                        }
                        made.time().advanceBy(Duration.ofHours(1));
                      }
                      double lacksMl = theta * volumeMl(cup) - made.cup(cup.name()).waterMl();
                      made.person().water(cup.name(), Math.max(0, lacksMl), 0);
                      made.time().advanceBy(Duration.ofSeconds(20));
                    }));
  }

  /** On a simulated bench, what weighing the probe's cup would give. */
  OptionalDouble trueTheta(String probe) {
    Optional<Cup> cup = cupOf(c -> c.wiring().probe(), probe);
    return world.isPresent() && cup.isPresent()
        ? OptionalDouble.of(world.get().cup(cup.get().name()).waterMl() / volumeMl(cup.get()))
        : OptionalDouble.empty();
  }

  /** On a simulated bench, what has come out of the tanks so far, mL. */
  OptionalDouble drawnMl() {
    return world.isPresent()
        ? OptionalDouble.of(
            -world.get().tankMl().values().stream().mapToDouble(Double::doubleValue).sum())
        : OptionalDouble.empty();
  }

  private double volumeMl(Cup cup) {
    return TaperedCup.of(bench.vessels().get(cup.vessel())).volumeMl();
  }

  private Optional<Cup> cupOf(Function<Cup, Optional<String>> wired, String part) {
    return bench.cups().values().stream()
        .filter(cup -> wired.apply(cup).filter(part::equals).isPresent())
        .findFirst();
  }

  @Override
  public void close() {
    board.close();
    context.shutdown();
    if (time instanceof RealTime real) {
      real.close();
    }
  }
}
