package dev.cupwarden.host.app;

import dev.cupwarden.app.ControllerRun;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.link.BrokerSettings;
import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.host.HostException;
import dev.cupwarden.simulator.SimulatedBench;
import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BiFunction;
import java.util.function.Function;

/**
 * The demo's bench: twelve cups in a back room at the end of November, left alone until the first
 * of them are thirsty, then given to a controller.
 */
final class DemoBench implements AutoCloseable {
  private static final String BENCH = "/dev/cupwarden/app/back-room.yaml";

  /** Half past eight in the bench's zone, so that the watering window has just opened. */
  private static final Instant WATERED = Instant.parse("2026-11-23T08:30:00Z");

  private static final Duration STEP = Duration.ofDays(1);
  private static final int MOST_STEPS = 10;

  private final ControllerRun run;

  /**
   * What to start.
   *
   * @param speed virtual seconds per second; infinite: as fast as can be
   * @param mode whether the controller waters, or only watches
   */
  record Plan(URI broker, Path folder, long seed, double speed, RunMode mode) {
    Path journal() {
      return folder.resolve("journal.db");
    }
  }

  private DemoBench(ControllerRun run) {
    this.run = run;
  }

  /** One that is only watched has a grower with a can. */
  static DemoBench start(Plan plan, TickReport.Listener listener) {
    AtomicReference<TickReport.Listener> grower = new AtomicReference<>(report -> {});
    AtomicReference<TickReport.Listener> places = new AtomicReference<>(report -> {});
    return start(
        plan,
        (bench, at) -> {
          SimulatedBench world = SimulatedBench.of(bench, plan.seed(), at);
          places.set(new DemoPlaces(world, bench.cups().keySet()));
          if (plan.mode() == RunMode.WATCH) {
            grower.set(new DemoCan(bench, world));
          }
          return world;
        },
        report -> {
          listener.ticked(report);
          places.get().ticked(report);
          grower.get().ticked(report);
        });
  }

  /**
   * Likewise in another world.
   *
   * @param worlds makes the world of a bench, its cups freshly watered at that time
   */
  static DemoBench start(
      Plan plan, BiFunction<Bench, Instant, SimulatedBench> worlds, TickReport.Listener listener) {
    try {
      String text = benchText();
      Bench bench = BenchFile.read("back-room.yaml", text);
      Files.createDirectories(plan.folder());
      ControllerRun.Plan run =
          new ControllerRun.Plan(
              bench,
              text,
              plan.journal(),
              Optional.of(BrokerSettings.open(plan.broker())),
              listener,
              plan.mode());
      return new DemoBench(
          ControllerRun.inWorld(
              run, next -> world(bench, at -> worlds.apply(bench, at), next), plan.speed()));
    } catch (SetupException | BoardException | JournalException | IOException failed) {
      throw new HostException("The demo's bench did not start: " + failed.getMessage(), failed);
    }
  }

  private static String benchText() throws IOException {
    try (InputStream stream = ControllerRun.class.getResourceAsStream(BENCH)) {
      if (stream == null) {
        throw new IOException(BENCH + " is missing from this program");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private static SimulatedBench world(
      Bench bench, Function<Instant, SimulatedBench> worlds, Optional<Instant> next) {
    return next.map(worlds).orElseGet(() -> thirsty(bench, worlds.apply(WATERED)));
  }

  /** A world in which at least one cup has just passed its due line. */
  private static SimulatedBench thirsty(Bench bench, SimulatedBench world) {
    for (int step = 1; step <= MOST_STEPS && !anyDue(bench, world); step++) {
      world.advanceTo(WATERED.plus(STEP.multipliedBy(step)));
    }
    return world;
  }

  private static boolean anyDue(Bench bench, SimulatedBench world) {
    return bench.cups().values().stream()
        .anyMatch(cup -> world.cup(cup.name()).depletion() >= dueLine(bench, cup));
  }

  private static double dueLine(Bench bench, Cup cup) {
    return bench.linesOf(cup).due();
  }

  /** The time on the bench. */
  Instant now() {
    return run.now();
  }

  @Override
  public void close() {
    run.close();
  }
}
