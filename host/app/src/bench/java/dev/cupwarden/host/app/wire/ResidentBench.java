package dev.cupwarden.host.app.wire;

import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.broker.LoopbackPort;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/**
 * Prints the resident memory of a host with ten benches, each of which says more than one would; the
 * host runs with the options of its package.
 */
public final class ResidentBench {
  private static final int BENCHES = 10;
  private static final double MB_PER_MIB = 1.048576;
  private static final long LOAD_S = Long.getLong("resident.seconds", 60);

  private ResidentBench() {}

  public static void main(String[] arguments) throws Exception {
    Path folder = Files.createTempDirectory("cupwarden-resident");
    try (BrokerProcess broker = BrokerProcess.start(folder)) {
      measure("with a broker beside it", PackagedJava.BROKER_BESIDE, 192, folder.resolve("beside"), broker.uri(),
          "--broker", broker.uri());
    }
    int port = LoopbackPort.anyFree("the broker", "--broker-port").number();
    measure("with the embedded broker", PackagedJava.OWN_BROKER, 400, folder.resolve("within"),
        "tcp://127.0.0.1:" + port, "--broker-port", Integer.toString(port));
    System.exit(0);
  }

  private static void measure(
      String what, PackagedJava java, int mostMb, Path folder, String broker, String... options)
      throws Exception {
    Files.createDirectories(folder);
    List<LoadedBench> benches = new ArrayList<>();
    try (HostProcess host = HostProcess.run(java.options(), Map.of(), folder.resolve("data"), options)) {
      double atRest = host.residentMib()[0];
      for (int number = 1; number <= BENCHES; number++) {
        LoadedBench bench = new LoadedBench("bench-" + number, folder);
        benches.add(bench);
        bench.connect(broker);
        bench.startLoad(1_000);
      }
      TimeUnit.SECONDS.sleep(LOAD_S);
      double[] resident = host.residentMib();
      System.out.printf(
          "host %s, %d benches with 3 messages/s each for %d s: resident %.0f MiB, at most"
              + " %.0f MiB, before them %.0f MiB; bound %.0f MiB (%d MB): %s%n",
          what, BENCHES, LOAD_S, resident[0], resident[1], atRest, mostMb / MB_PER_MIB, mostMb,
          resident[1] <= mostMb / MB_PER_MIB ? "kept" : "BROKEN");
    } finally {
      for (LoadedBench bench : benches) {
        bench.close();
      }
    }
  }
}
