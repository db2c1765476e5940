package dev.cupwarden.host.app;

import dev.cupwarden.app.loop.RunMode;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.broker.LoopbackPort;
import java.io.PrintWriter;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code demo}: the whole path on this machine, with a simulated bench and time running fast. */
@Command(
    name = "demo",
    description = {
      "Shows the whole path on this machine: broker, a simulated bench of twelve cups, its"
          + " controller, the host and the page, with time running fast. Needs no network."
    },
    mixinStandardHelpOptions = true)
final class DemoCommand implements Callable<Integer> {
  private static final double FASTEST = 20_000;

  /** A person needs that long, in real time, from giving an order to its arrival. */
  private static final Duration REAL_ORDER_EXPIRY = Duration.ofSeconds(30);

  private static final long LOOK_MS = 500;

  @Spec private CommandSpec spec;
  @Mixin private Ports ports;

  @Option(
      names = "--broker-port",
      paramLabel = "N",
      description = "Port of the broker on 127.0.0.1 (default: any that is free).")
  private Integer brokerPort;

  @Option(
      names = "--speed",
      paramLabel = "X",
      description = "Seconds on the bench per second here (default: ${DEFAULT-VALUE}).")
  private double speed = 900;

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "The same number gives the same bench (default: ${DEFAULT-VALUE}).")
  private long seed = 1;

  @Option(
      names = "--watch",
      description = {
        "Pump nothing: a simulated grower waters with a can. After a week on the bench it is told"
            + " cup by cup what the controller would have done."
      })
  private boolean watch;

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "Keep everything in this folder; otherwise it is removed at the end.")
  private Path data;

  @Override
  public Integer call() throws InterruptedException {
    if (!(speed >= 1 && speed <= FASTEST)) {
      throw new ParameterException(
          spec.commandLine(), "--speed: expected 1 to " + (long) FASTEST + ", not " + speed + ".");
    }
    LoopbackPort broker =
        brokerPort == null
            ? LoopbackPort.anyFree("the broker", "--broker-port")
            : ports.broker(brokerPort);
    try (CloseOnExit closing = new CloseOnExit()) {
      Path folder = data == null ? closing.closes(new TemporaryFolder()).path() : data;
      AtomicReference<InstantSource> benchClock = new AtomicReference<>(InstantSource.system());
      Host host =
          closing.closes(
              Host.start(
                  HostSettings.local(folder, ports.page(), broker)
                      .inTime(
                          () -> benchClock.get().instant(),
                          REAL_ORDER_EXPIRY.multipliedBy((long) speed))));
      DemoProgress progress = closing.closes(DemoProgress.on(spec.commandLine().getOut()));
      DemoBench.Plan plan =
          new DemoBench.Plan(
              URI.create(host.brokerUri()),
              folder.resolve("bench"),
              seed,
              speed,
              watch ? RunMode.WATCH : RunMode.WATER);
      DemoBench bench = closing.closes(DemoBench.start(plan, progress::hear));
      benchClock.set(bench::now);
      welcome(host, bench.now());
      DemoTanks tanks = new DemoTanks();
      DemoWatch week = new DemoWatch(plan.journal(), bench.now(), spec.commandLine().getOut());
      while (!closing.comes(LOOK_MS)) {
        tanks.tellOnce(host);
        progress.look();
        if (watch) {
          week.look(bench.now());
        }
      }
    }
    return 0;
  }

  private void welcome(Host host, Instant now) {
    PrintWriter out = spec.commandLine().getOut();
    out.printf(
        Locale.ROOT,
        "The page is at %s (Ctrl-C ends the demo).%n"
            + "A simulated bench of twelve cups; it is %s there, and an hour takes %.1f s.%n",
        host.address(),
        now,
        Duration.ofHours(1).toSeconds() / speed);
    if (watch) {
      out.printf(
          Locale.ROOT,
          "It is only watched; a grower waters with a can. The week is told in %.0f min.%n",
          Duration.ofDays(7).toMinutes() / speed);
    }
    out.flush();
  }
}
