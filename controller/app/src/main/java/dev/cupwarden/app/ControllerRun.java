package dev.cupwarden.app;

import com.pi4j.context.Context;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.clock.BenchTime;
import dev.cupwarden.app.clock.RealTime;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.OpenJournal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.link.BrokerSettings;
import dev.cupwarden.app.link.MqttLink;
import dev.cupwarden.app.loop.BenchHardware;
import dev.cupwarden.app.loop.BenchLoop;
import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.app.service.HardwareWatchdog;
import dev.cupwarden.app.service.LifeSigns;
import dev.cupwarden.app.service.NotifySocket;
import dev.cupwarden.app.service.Watchdogs;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardContext;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.board.OneWire;
import dev.cupwarden.board.RealPace;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.SimulatedBench;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.function.Function;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A bench that runs: board, journal, loop and link, started together and ended in order. Outputs
 * are off before anything else at the start, and before anything else at the end.
 */
public final class ControllerRun implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(ControllerRun.class);
  private static final Duration LAST_TICK = Duration.ofSeconds(5);

  /**
   * What to run.
   *
   * @param bench with its wiring
   * @param benchText the bench file as it was read, for the journal
   * @param journal the journal's file; made if missing
   * @param broker none to run without a wire
   * @param listener hears of each tick, on the loop's thread; must return soon
   */
  public record Plan(
      Bench bench,
      String benchText,
      Path journal,
      Optional<BrokerSettings> broker,
      TickReport.Listener listener) {}

  /**
   * A world to run it on.
   *
   * @param seed the same seed gives the same world
   * @param speed virtual seconds per real second, above 0; {@link AcceleratedTime#UNBOUNDED} for as
   *     fast as can be
   * @param driedFor how long before the start all cups were watered to drain
   * @param begins the time there when a new journal begins; none: the time it is
   */
  public record Simulation(long seed, double speed, Duration driedFor, Optional<Instant> begins) {}

  private interface Closing {
    void close() throws Exception;
  }

  private final Deque<Closing> closings = new ArrayDeque<>();
  private BenchBoard board;
  private BenchHardware hardware;
  private BenchLoop loop;
  private Thread thread;
  private BenchTime time;
  private boolean closed;

  private ControllerRun() {}

  /**
   * Runs the machine's own electronics in real time.
   *
   * @param watchdogDevice the board's own watchdog, to be fed for as long as ticks finish
   * @throws BoardException when the board is not as it is wired
   * @throws JournalException when the journal belongs to a newer or another program
   * @throws SetupException when a cup's lines are out of order
   */
  public static ControllerRun onBoard(Plan plan, Optional<Path> watchdogDevice)
      throws BoardException, JournalException, SetupException {
    ControllerRun run = new ControllerRun();
    try {
      RealTime time = new RealTime();
      run.closings.push(time::close);
      run.openBoard(plan, BoardContext.real(), time, OneWire.ofKernel());
      run.begin(plan, run.openJournal(plan), watchdog(watchdogDevice));
      return run;
    } catch (BoardException | JournalException | SetupException | RuntimeException e) {
      run.close();
      throw e;
    }
  }

  /**
   * Runs a simulated bench with the same drivers, in virtual time.
   *
   * @throws BoardException when the bench's wiring cannot be
   * @throws JournalException when the journal belongs to a newer or another program
   * @throws SetupException when a cup's lines are out of order
   */
  public static ControllerRun onSimulator(Plan plan, Simulation simulation)
      throws BoardException, JournalException, SetupException {
    return inWorld(
        plan,
        next -> {
          Instant start = start(simulation.begins(), next);
          SimulatedBench world =
              SimulatedBench.of(
                  plan.bench(), simulation.seed(), start.minus(simulation.driedFor()));
          world.advanceTo(start);
          return world;
        },
        simulation.speed());
  }

  /**
   * Runs in a simulated world that somebody else has prepared.
   *
   * @param world makes it; is told when the next tick of a journal that is gone on with would be,
   *     which the world must not begin before
   * @param speed virtual seconds per second; infinite: as fast as can be
   * @throws BoardException when the bench's wiring cannot be
   * @throws JournalException when the journal belongs to a newer or another program
   * @throws SetupException when a cup's lines are out of order
   */
  public static ControllerRun inWorld(
      Plan plan, Function<Optional<Instant>, SimulatedBench> world, double speed)
      throws BoardException, JournalException, SetupException {
    ControllerRun run = new ControllerRun();
    try {
      OpenJournal journal = run.openJournal(plan);
      Optional<Instant> next =
          journal.journal().restored().map(was -> was.at().plus(plan.bench().tick()));
      SimulatedBench made = world.apply(next);
      run.openBoard(
          plan, made.newContext(), new AcceleratedTime(made.time(), speed), made::oneWire);
      run.begin(plan, journal, Optional.empty());
      return run;
    } catch (BoardException | JournalException | SetupException | RuntimeException e) {
      run.close();
      throw e;
    }
  }

  /** A virtual world begins when it is told, or where one that ran before has got to. */
  private static Instant start(Optional<Instant> begins, Optional<Instant> next) {
    Instant first = begins.orElseGet(() -> Instant.now().truncatedTo(ChronoUnit.SECONDS));
    return next.filter(at -> at.isAfter(first)).orElse(first);
  }

  private void openBoard(Plan plan, Context context, BenchTime benchTime, OneWire oneWire)
      throws BoardException {
    time = benchTime;
    closings.push(context::shutdown);
    board = BenchBoard.open(context, plan.bench(), benchTime, oneWire);
    closings.push(board::close);
    hardware = BenchHardware.of(board);
  }

  private OpenJournal openJournal(Plan plan) throws JournalException {
    OpenJournal open = OpenJournal.orStandIn(plan.journal());
    closings.push(open::close);
    return open;
  }

  private void begin(Plan plan, OpenJournal open, Optional<HardwareWatchdog> hardwareWatchdog)
      throws JournalException, SetupException {
    Topics topics = new Topics(plan.bench().name());
    TickReport.Listener listener = plan.listener();
    if (plan.broker().isPresent()) {
      Outbox outbox = Outbox.of(open.journal());
      closings.push(outbox::close);
      MqttLink link = MqttLink.start(plan.broker().get(), topics, outbox, time::wall);
      closings.push(link::close);
      listener =
          report -> {
            link.setUp(report.setup());
            link.ticked(report.cups(), report.bench());
            plan.listener().ticked(report);
          };
    }
    loop =
        BenchLoop.resume(
            new BenchLoop.Parts(
                plan.bench(),
                plan.benchText(),
                hardware,
                open.journal(),
                time,
                listener,
                ProgramVersion.text(),
                open.trouble()));
    watch(plan, hardwareWatchdog);
    thread = new Thread(loop::run, "loop");
    thread.start();
  }

  /** Watchdogs end with the loop, or bite when it hangs; only a meant end calls them off. */
  private void watch(Plan plan, Optional<HardwareWatchdog> hardware) {
    RealPace real = new RealPace();
    closings.push(real::close);
    LifeSigns signs = new LifeSigns(plan.bench().tick(), loop.settling(), real.nanos());
    board.onBeat(() -> signs.beat(real.nanos()));
    loop.tell(
        new BenchLoop.Signs() {
          @Override
          public void moved() {
            signs.moved(real.nanos());
          }

          @Override
          public void over(boolean well) {
            if (well) {
              signs.finished(real.nanos());
            } else {
              signs.failed();
            }
          }
        });
    Watchdogs watchdogs = new Watchdogs(signs, real, NotifySocket.ofEnvironment(), hardware);
    closings.push(watchdogs::close);
  }

  private static Optional<HardwareWatchdog> watchdog(Optional<Path> device) throws BoardException {
    try {
      return device.isPresent()
          ? Optional.of(HardwareWatchdog.open(device.get()))
          : Optional.empty();
    } catch (IOException e) {
      throw new BoardException(
          "The watchdog %s cannot be opened: %s".formatted(device.get(), e.getMessage()), e);
    }
  }

  /** The bench's time: the machine's, or the virtual world's. */
  public Instant now() {
    return time.wall();
  }

  /** Whether the journal is a stand-in, so that nothing is watered; says why. */
  public Optional<String> trouble() {
    return loop.trouble();
  }

  /** Ends it: outputs off, the last outcome put down, {@code offline} told. */
  @Override
  public synchronized void close() {
    if (closed) {
      return;
    }
    closed = true;
    endLoop();
    while (!closings.isEmpty()) {
      try {
        closings.pop().close();
      } catch (Exception e) {
        // Whatever else fails at the end, the rest must still be closed.
        log.warn("Ending: {}", e.getMessage());
      }
    }
  }

  private void endLoop() {
    if (thread == null) {
      return;
    }
    loop.stop();
    try {
      thread.join(LAST_TICK.toMillis());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    if (thread.isAlive()) {
      log.warn("The last tick did not end within {} s", LAST_TICK.toSeconds());
    }
  }
}
