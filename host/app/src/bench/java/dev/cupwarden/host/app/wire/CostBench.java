package dev.cupwarden.host.app.wire;

import dev.cupwarden.host.PostgresqlServer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/**
 * What a cup costs a host on PostgreSQL: 1,000 cups on five benches beside 10 cups on one, each with
 * a reading a second. Told are the processor time of host and database for each reading, with and
 * without what both use while no bench speaks, and how long an event takes to be kept.
 */
public final class CostBench {
  private static final double MOST_TIMES = 1.1;
  private static final double MICROS = 1e6;
  private static final long WARM_S = 30;

  private CostBench() {}

  /**
   * Processor time for a reading, and of a second in which no bench speaks.
   *
   * @param beyondIdleS without its share of idling
   */
  private record Cost(double hostS, double databaseS, double beyondIdleS, Latency latency) {
    double totalS() {
      return hostS + databaseS;
    }
  }

  /** Arguments: how many seconds each part is measured. */
  public static void main(String[] arguments) throws Exception {
    long seconds = Long.parseLong(arguments[0]);
    Cost few = measure(1, 10, seconds);
    Cost many = measure(5, 200, seconds);
    tell("processor time", many.totalS() / few.totalS());
    tell("processor time beyond idling", many.beyondIdleS() / few.beyondIdleS());
    tell("median latency", many.latency().medianMs() / few.latency().medianMs());
    System.exit(0);
  }

  private static void tell(String what, double times) {
    System.out.printf(
        "%s of a cup, 1,000 cups against 10: %.2f times; at most %.1f: %s%n",
        what, times, MOST_TIMES, times <= MOST_TIMES ? "kept" : "BROKEN");
  }

  private static Cost measure(int count, int cups, long seconds) throws Exception {
    Path folder = Files.createTempDirectory("cupwarden-cost");
    try (PostgresqlServer server = PostgresqlServer.start();
        MeteredHost host =
            MeteredHost.start(
                folder.resolve("data"),
                "--database",
                server.url());
        SpeakingBenches benches = new SpeakingBenches()) {
      long postmaster = server.pid();
      TimeUnit.SECONDS.sleep(WARM_S);
      double idleFrom = host.cpuS() + ProcessorTime.ofFamily(postmaster);
      TimeUnit.SECONDS.sleep(WARM_S);
      double idle = (host.cpuS() + ProcessorTime.ofFamily(postmaster) - idleFrom) / WARM_S;
      benches.start(count, cups, host.broker());
      TimeUnit.SECONDS.sleep(WARM_S);
      benches.takeLatency();
      Cost cost = under(benches, host, postmaster, idle, seconds);
      System.out.printf(
          "%d bench(es) of %d cups: %.0f µs of the host and %.0f µs of the database for a reading,"
              + " %.0f µs beyond idling (%.1f ms a second); kept after %s%n",
          count,
          cups,
          cost.hostS() * MICROS,
          cost.databaseS() * MICROS,
          cost.beyondIdleS() * MICROS,
          idle * 1e3,
          cost.latency());
      return cost;
    }
  }

  private static Cost under(
      SpeakingBenches benches, MeteredHost host, long postmaster, double idle, long seconds)
      throws Exception {
    long before = host.readingsStored();
    double hostFrom = host.cpuS();
    double databaseFrom = ProcessorTime.ofFamily(postmaster);
    long began = System.nanoTime();
    TimeUnit.SECONDS.sleep(seconds);
    double tookS = (System.nanoTime() - began) / 1e9;
    double hostS = host.cpuS() - hostFrom;
    double databaseS = ProcessorTime.ofFamily(postmaster) - databaseFrom;
    long readings = host.readingsStored() - before;
    return new Cost(
        hostS / readings,
        databaseS / readings,
        (hostS + databaseS - idle * tookS) / readings,
        benches.takeLatency());
  }
}
