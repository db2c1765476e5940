package dev.cupwarden.app;

import com.pi4j.context.Context;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.app.clock.BenchTime;
import dev.cupwarden.app.clock.RealTime;
import dev.cupwarden.app.journal.FailedStarts;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalLock;
import dev.cupwarden.app.journal.OpenJournal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.app.link.BrokerSettings;
import dev.cupwarden.app.link.ControllerMqttLink;
import dev.cupwarden.app.loop.BenchHardware;
import dev.cupwarden.app.loop.BenchLoop;
import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.app.service.HardwareWatchdog;
import dev.cupwarden.app.service.LoopProgress;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.board.BoardContext;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.board.OneWire;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.SimulatedBench;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.function.Function;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A bench that runs: board, journal, loop and link, started together and ended in order. Outputs
 * are off before anything else at the start, and before anything else at the end.
 */
public final class ControllerRun implements AutoCloseable {
  private static final Logger log = LoggerFactory.getLogger(ControllerRun.class);

  /** After starts in vain the next one waits so long for a broker, in case it is in vain, too. */
  private static final Duration TELL_FIRST = Duration.ofSeconds(10);

  /**
   * What to run.
   *
   * @param bench with its wiring
   * @param benchText the bench file as it was read, for the journal
   * @param journal the journal's file; made if missing
   * @param broker none to run without a wire
   * @param listener hears of each tick, on the loop's thread; must return soon
   * @param mode whether the bench is watered or only watched
   */
  public record Plan(
      Bench bench,
      String benchText,
      Path journal,
      Optional<BrokerSettings> broker,
      TickReport.Listener listener,
      RunMode mode) {}

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
  private BenchLoop loop;
  private LoopThread thread;
  private BenchTime time;
  private FailedStarts starts;
  private LoopProgress progress;
  private ControllerMqttLink link;
  private final CompletableFuture<Throwable> broken = new CompletableFuture<>();
  private boolean troubleMayPass;
  private boolean began;
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
      RealTime time = new RealTime(plan.bench().board().flatMap(board -> board.more().clock()));
      run.closings.push(time::close);
      // Before the board: another process that runs it must not find its outputs off.
      run.claim(plan, plan.bench().tick());
      run.openBoard(plan, BoardContext.real(plan.bench()), time, OneWire.ofKernel());
      run.begin(plan, run.openJournal(plan), watchdogDevice);
      return run;
    } catch (BoardException | JournalException | SetupException | RuntimeException | Error e) {
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
      run.claim(plan, realTick(plan.bench().tick(), speed));
      OpenJournal journal = run.openJournal(plan);
      Optional<Instant> next =
          journal.journal().restored().map(was -> was.at().plus(plan.bench().tick()));
      SimulatedBench made = world.apply(next);
      run.openBoard(
          plan, made.newContext(), new AcceleratedTime(made.time(), speed), made::oneWire);
      run.begin(plan, journal, Optional.empty());
      return run;
    } catch (BoardException | JournalException | SetupException | RuntimeException | Error e) {
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
  }

  private static Duration realTick(Duration tick, double speed) {
    return Duration.ofNanos((long) (tick.toNanos() / speed));
  }

  /** Takes the journal for this process, and counts the start until a tick was finished. */
  private void claim(Plan plan, Duration realTick) throws JournalException {
    JournalLock lock = JournalLock.take(plan.journal());
    closings.push(lock::close);
    starts = FailedStarts.begin(plan.journal());
    progress = new LoopProgress(realTick, starts.before());
  }

  private OpenJournal openJournal(Plan plan) throws JournalException {
    OpenJournal open = OpenJournal.orStandIn(plan.journal());
    closings.push(open::close);
    troubleMayPass = open.mayPass();
    return open;
  }

  private void begin(Plan plan, OpenJournal open, Optional<Path> watchdogDevice)
      throws BoardException, JournalException, SetupException {
    TickReport.Listener listener = listener(plan, open);
    takeUp(open);
    loop =
        BenchLoop.resume(
            new BenchLoop.Parts(
                plan.bench(),
                plan.benchText(),
                BenchHardware.of(board),
                open.journal(),
                time,
                listener,
                ProgramVersion.text(),
                open.trouble(),
                plan.mode()));
    if (link != null) {
      loop.askOfRivals(link::hasRival);
    }
    // Opened last: once it is, whatever fails before the first feeding resets the board.
    Optional<HardwareWatchdog> device = LoopWatch.device(watchdogDevice);
    LoopWatch watch = LoopWatch.over(loop, board, plan.bench().tick(), device, progress, starts);
    closings.push(watch::close);
    began = true;
    thread = LoopThread.start(loop, this::broke);
  }

  /** Sets aside what starts before this one could not live with, once others were told of them. */
  private void takeUp(OpenJournal open) throws JournalException {
    if (link != null && starts.before() >= FailedStarts.MOST) {
      tellFirst();
    }
    if (starts.takesUp(open.journal().oldestOrder())) {
      open.journal()
          .setAside(time.wall())
          .ifPresent(to -> log.error("{} starts failed on the orders now in {}", 3, to));
    }
  }

  private void tellFirst() {
    try {
      if (!link.awaitBeat(TELL_FIRST)) {
        log.warn("No broker was there to tell of {} failed starts", starts.before());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void broke(Throwable why) {
    log.error("The loop has ended", why);
    broken.complete(why);
  }

  /** Done when the loop has ended by itself: the process must end, and be started anew. */
  public CompletableFuture<Throwable> broken() {
    return broken;
  }

  /** With a broker, the wire hears of each tick as well. */
  private TickReport.Listener listener(Plan plan, OpenJournal open) throws JournalException {
    if (plan.broker().isEmpty()) {
      return plan.listener();
    }
    Outbox outbox = Outbox.of(open.journal());
    closings.push(outbox::close);
    Topics topics = new Topics(plan.bench().name());
    link = ControllerMqttLink.start(plan.broker().get(), topics, outbox, time::wall, progress);
    closings.push(link::close);
    return report -> {
      link.setUp(report.setup());
      link.ticked(report.cups(), report.bench());
      plan.listener().ticked(report);
    };
  }

  /** The bench's time: the machine's, or the virtual world's. */
  public Instant now() {
    return time.wall();
  }

  /** Whether the bench is only watched: nothing is pumped. */
  public boolean watchOnly() {
    return loop.watchOnly();
  }

  /** Whether the journal is a stand-in, so that nothing is watered; says why. */
  public Optional<String> trouble() {
    return loop.trouble();
  }

  /** Whether a later start may find the true journal usable again. */
  public boolean troubleMayPass() {
    return troubleMayPass;
  }

  /** Ends it: outputs off, the last outcome put down, {@code offline} told. */
  @Override
  public synchronized void close() {
    if (closed) {
      return;
    }
    closed = true;
    if (thread != null) {
      thread.close();
    }
    if (began && !broken.isDone()) {
      starts.calledOff();
    }
    while (!closings.isEmpty()) {
      try {
        closings.pop().close();
      } catch (Exception e) {
        // Whatever else fails at the end, the rest must still be closed.
        log.warn("Ending: {}", e.getMessage());
      }
    }
  }
}
