package dev.cupwarden.host.app.wire;

import static org.awaitility.Awaitility.await;

import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.HostSettings.Keeping;
import dev.cupwarden.host.HostSettings.OtherBroker;
import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two hosts share the load against one PostgreSQL; one of them dies under it. */
class TwoHostsTest {
  private static final int SHARE = 100;
  private static final Duration LIMIT = Duration.ofSeconds(60);
  @TempDir Path folder;

  @Test
  void oneIsKilledUnderLoadAndNothingIsLostOrDoubled() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start();
        BrokerProcess broker = BrokerProcess.start(folder)) {
      Database database = server.database();
      String[] options = {"--broker", broker.uri(), "--database", server.url(), "--shared"};
      try (Host host = survivor(broker, database);
          HostProcess other = HostProcess.run(folder.resolve("other"), options);
          LoadedBench bench = new LoadedBench("sill", folder)) {
        Stored stored = new Stored(database);
        bench.connect(broker.uri());
        bench.startLoad(5);
        awaitBothWork(host, stored);
        other.kill();
        int under = bench.unkept();
        long more = host.counts().messages() + SHARE;
        awaitMessages(host, more);
        bench.stopLoad();
        long began = System.nanoTime();
        bench.awaitKept();
        System.out.printf(
            "two hosts: %d ticks, %d events under way when one was killed, all kept %.1f s after"
                + " the load ended%n",
            bench.ticks(), under, (System.nanoTime() - began) / 1e9);
        bench.assertAllOnce(stored);
      }
    }
  }

  private Host survivor(BrokerProcess broker, Database database) throws Exception {
    return Host.start(
        HostSettings.local(
                Files.createDirectories(folder.resolve("survivor")),
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port"))
            .keeping(new Keeping(database, Retention.USUAL))
            .withBroker(new OtherBroker(broker.uri(), Optional.empty(), true)));
  }

  /** More is stored than the one has taken in, by more than what may be under way. */
  private static void awaitBothWork(Host host, Stored stored) {
    await("work of both hosts")
        .atMost(LIMIT)
        .until(
            () ->
                host.counts().readings() >= SHARE
                    && stored.readings("sill") >= host.counts().readings() + SHARE);
  }

  private static void awaitMessages(Host host, long messages) {
    await("the other host goes on alone")
        .atMost(LIMIT)
        .until(() -> host.counts().messages() >= messages);
  }
}
