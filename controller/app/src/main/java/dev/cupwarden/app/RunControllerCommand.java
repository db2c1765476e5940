package dev.cupwarden.app;

import dev.cupwarden.app.check.ProofRecord;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.link.BrokerSettings;
import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.board.BoardException;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchSafety;
import dev.cupwarden.core.setup.SetupException;
import java.io.IOException;
import java.io.PrintWriter;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.Callable;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code run}: waters a bench until it is told to end. */
@Command(
    name = "run",
    description = "Runs a bench: reads, waters, keeps a journal and tells a broker.",
    mixinStandardHelpOptions = true)
public final class RunControllerCommand implements Callable<Integer> {
  private static final int BAD_USAGE = 2;

  /** What is wrong may pass: whoever started it, starts it again. */
  private static final int TRY_AGAIN = 1;

  private static final long LONGEST_END_S = 20;

  private static final Logger log = LoggerFactory.getLogger(RunControllerCommand.class);

  /** Our choice: so long a stand-in for a journal that cannot be used tells of it. */
  private static final long STAND_IN_MIN = 10;

  private static final Set<String> SCHEMES = Set.of("tcp", "ssl");

  @Spec private CommandSpec spec;

  @Option(
      names = "--bench",
      required = true,
      paramLabel = "FILE",
      description = "The bench file, with its wiring.")
  private Path benchFile;

  @Option(
      names = "--journal",
      required = true,
      paramLabel = "FILE",
      description = "The journal of readings and waterings; created if missing.")
  private Path journal;

  @Option(
      names = "--broker",
      paramLabel = "URI",
      defaultValue = "tcp://127.0.0.1:1883",
      description = "The MQTT 5 broker, tcp:// or ssl:// (default: ${DEFAULT-VALUE}).")
  private String broker;

  @Option(names = "--user", paramLabel = "NAME", description = "Our user name at the broker.")
  private String user;

  @Option(
      names = "--password-file",
      paramLabel = "FILE",
      description = "Its first line is the password for --user.")
  private Path passwordFile;

  @Option(
      names = "--watchdog",
      paramLabel = "DEVICE",
      description = "The board's own watchdog, such as /dev/watchdog; resets a board that hangs.")
  private Path watchdog;

  @Option(
      names = "--simulate",
      description = "Run a simulated bench, with the same drivers, instead of the real one.")
  private boolean simulate;

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "With --simulate: the same number gives the same world.")
  private long seed;

  @Option(
      names = "--dried-for",
      paramLabel = "DAYS",
      defaultValue = "0",
      description = "With --simulate: how long ago the cups were watered to drain.")
  private double driedForDays;

  @Option(
      names = "--begins",
      paramLabel = "TIME",
      description = "With --simulate: the time there at a new journal's start (default: now).")
  private Instant begins;

  @Option(
      names = "--speed",
      paramLabel = "X",
      defaultValue = "1",
      description = "With --simulate: virtual seconds per second (default: ${DEFAULT-VALUE}).")
  private double speed;

  @ArgGroup private Watch watch;

  /** At most one of the two: who says neither goes on as the last start did. */
  private static final class Watch {
    @Option(
        names = "--watch",
        required = true,
        description =
            "Weigh, advise and tell, but pump nothing, beside your own can; so do later starts on"
                + " this journal, until one says --water. See journal watched.")
    private boolean only;

    @Option(
        names = "--water",
        required = true,
        description = "End a watch: the pump runs again from this start on.")
    private boolean over;
  }

  private static final class BadUsage extends Exception {
    private static final long serialVersionUID = 1L;

    BadUsage(String sentence) {
      super(sentence);
    }
  }

  @Override
  public Integer call() throws InterruptedException {
    try {
      ControllerRun.Plan plan = plan();
      ControllerRun run =
          simulate
              ? ControllerRun.onSimulator(plan, simulation())
              : ControllerRun.onBoard(plan, Optional.ofNullable(watchdog));
      tellSafety(plan.bench());
      started(plan, run);
      return untilTold(run);
    } catch (BadUsage | SetupException | BoardException e) {
      return refused(e, BAD_USAGE);
    } catch (JournalException e) {
      // A full disk or a lock passes; whose the file is does not.
      return refused(e, e.trouble() == JournalException.Trouble.FOREIGN ? BAD_USAGE : TRY_AGAIN);
    }
  }

  private int refused(Exception e, int exitCode) {
    PrintWriter err = spec.commandLine().getErr();
    err.println(e.getMessage());
    err.flush();
    return exitCode;
  }

  private ControllerRun.Plan plan() throws BadUsage, SetupException, JournalException {
    Bench bench = BenchSource.load(benchFile);
    if (bench.board().isEmpty()) {
      throw new BadUsage(
          benchFile + " board: run needs the bench's wiring (scales, pump, valves), and has none");
    }
    List<String> faults = faults(new BenchSafety(bench));
    if (!faults.isEmpty()) {
      throw new BadUsage(
          "%s: this bench is not safe to leave alone, and does not run:%n%s"
              .formatted(benchFile, String.join(System.lineSeparator(), faults)));
    }
    return new ControllerRun.Plan(
        bench, BenchSource.text(benchFile), journal, Optional.of(settings()), report -> {}, mode());
  }

  /** Where no water runs, or nothing is pumped, a part that is missing refuses nothing. */
  private List<String> faults(BenchSafety safety) throws JournalException {
    List<String> faults = safety.faults();
    return faults.isEmpty() || !(simulate || watches()) ? faults : safety.ways();
  }

  private RunMode mode() {
    if (watch == null) {
      return RunMode.AS_LEFT;
    }
    return watch.only && !watch.over ? RunMode.WATCH : RunMode.WATER;
  }

  /** Whether nothing will be pumped, which a start that says nothing leaves to the journal. */
  private boolean watches() throws JournalException {
    if (mode() != RunMode.AS_LEFT || !Files.exists(journal)) {
      return mode() == RunMode.WATCH;
    }
    try (JournalExport before = JournalExport.open(journal)) {
      return before.watchOnly();
    }
  }

  private ControllerRun.Simulation simulation() throws BadUsage {
    if (!(speed > 0) || Double.isInfinite(speed)) {
      throw new BadUsage("--speed: must be above 0, not " + speed);
    }
    if (!(driedForDays >= 0 && driedForDays <= 60)) {
      throw new BadUsage("--dried-for: must be 0 to 60 days, not " + driedForDays);
    }
    Duration driedFor = Duration.ofSeconds(Math.round(driedForDays * 86_400));
    return new ControllerRun.Simulation(seed, speed, driedFor, Optional.ofNullable(begins));
  }

  private BrokerSettings settings() throws BadUsage {
    if ((user == null) != (passwordFile == null)) {
      throw new BadUsage("--user and --password-file go together");
    }
    URI uri;
    try {
      uri = new URI(broker);
    } catch (URISyntaxException e) {
      throw new BadUsage("--broker: \"" + broker + "\" is not an address such as tcp://host:1883");
    }
    String path = uri.getPath();
    boolean bare = path == null || path.isEmpty();
    if (uri.getHost() == null || !SCHEMES.contains(uri.getScheme()) || !bare) {
      throw new BadUsage("--broker: \"" + broker + "\" is not an address such as tcp://host:1883");
    }
    Optional<String> password =
        passwordFile == null ? Optional.empty() : password().lines().findFirst();
    return new BrokerSettings(uri, Optional.ofNullable(user), password);
  }

  private String password() throws BadUsage {
    try {
      return SmallFile.text(passwordFile);
    } catch (NoSuchFileException e) {
      throw new BadUsage("--password-file: there is no " + passwordFile);
    } catch (IOException e) {
      throw new BadUsage("--password-file: " + passwordFile + " cannot be read: " + e.getMessage());
    }
  }

  /** What lacks where nothing is pumped, what the grower has waived, whether to prove it anew. */
  private void tellSafety(Bench bench) {
    Sentences.withoutPlace(bench, false).ifPresent(log::warn);
    if (!simulate) {
      new ProofRecord(journal.toAbsolutePath().getParent())
          .asks(bench.board().orElseThrow(), Instant.now())
          .ifPresent(log::warn);
    }
    BenchSafety safety = new BenchSafety(bench);
    safety.faults().forEach(log::warn);
    safety.runsWithout().forEach(log::warn);
  }

  private void started(ControllerRun.Plan plan, ControllerRun run) {
    PrintWriter out = spec.commandLine().getOut();
    out.printf(
        "Running %s, %d cups%s, journal %s, broker %s%s%n",
        plan.bench().name(),
        plan.bench().cups().size(),
        simulate ? " (simulated)" : "",
        journal,
        plan.broker().orElseThrow(),
        run.trouble()
            .map(why -> "; WATERING NOTHING: " + why)
            .orElse(run.watchOnly() ? "; ONLY WATCHED, nothing is pumped (--water ends it)" : ""));
    out.flush();
  }

  /** Until it is told to end, or ends by itself so that whoever started it does so anew. */
  private static int untilTold(ControllerRun run) throws InterruptedException {
    BlockingQueue<Integer> ended = new LinkedBlockingQueue<>();
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  run.close();
                  ended.add(0);
                },
                "end"));
    var unused = run.broken().thenRun(() -> ended.add(ControllerCommand.BROKEN));
    Thread.setDefaultUncaughtExceptionHandler(
        (thread, why) -> {
          log.error("The thread {} has ended", thread.getName(), why);
          if (why instanceof Error) {
            ended.add(ControllerCommand.BROKEN);
          }
        });
    Integer code = run.troubleMayPass() ? ended.poll(STAND_IN_MIN, TimeUnit.MINUTES) : ended.take();
    if (code == null || code == ControllerCommand.BROKEN) {
      endFor(code == null ? TRY_AGAIN : code);
      run.close();
    }
    return code == null ? TRY_AGAIN : code;
  }

  /** Whatever else may hang in the end of a broken process, it ends. */
  private static void endFor(int code) {
    Thread bound =
        new Thread(
            () -> {
              try {
                TimeUnit.SECONDS.sleep(LONGEST_END_S);
                Runtime.getRuntime().halt(code);
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
            },
            "bound");
    bound.setDaemon(true);
    bound.start();
  }
}
