package dev.cupwarden.host.app.wire;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.HostSettings.Keeping;
import dev.cupwarden.host.HostSettings.OtherBroker;
import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.StoreMaintenance.Retention;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that is full and a database that goes away: things come later, and nothing is lost. */
class StoreAwayTest {
  private static final int MANY = 200;

  /** Two events of some 200 bytes and two readings each: far more than 100 pages of 4 KiB hold. */
  private static final int TOO_MANY_TICKS = 1_500;

  private static final Duration LIMIT = Duration.ofSeconds(90);
  @TempDir Path folder;

  private Host host(BrokerProcess broker, Database database) throws Exception {
    return Host.start(
        HostSettings.local(
                Files.createDirectories(folder.resolve("host")),
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port"))
            .keeping(new Keeping(database, Retention.USUAL))
            .withBroker(new OtherBroker(broker.uri(), Optional.empty(), false)));
  }

  @Test
  void onAFullDiskTheHostAnswersAndTheJournalWaitsUntilThereIsRoom() throws Exception {
    Path file = folder.resolve("host.db");
    try (BrokerProcess broker = BrokerProcess.start(folder);
        LoadedBench bench = new LoadedBench("sill", folder)) {
      bench.connect(broker.uri());
      // The driver takes SQLite's settings from the address: a file that may not grow further.
      try (Host full = host(broker, Database.sqlite(Path.of(file + "?max_page_count=100")))) {
        bench.startLoad(2);
        awaitTicks(bench, TOO_MANY_TICKS);
        bench.stopLoad();
        awaitStandstill(full, bench);
        HttpResponse<String> answer =
            HttpClient.newHttpClient()
                .send(
                    HttpRequest.newBuilder(URI.create(full.address()).resolve("/api/benches"))
                        .build(),
                    HttpResponse.BodyHandlers.ofString());
        assertTrue(answer.statusCode() == 200 && answer.body().contains("sill"), answer.body());
      }
      assertTrue(bench.unkept() > 0, "the file took more than it has room for");
      Database roomy = Database.sqlite(file);
      try (Host host = host(broker, roomy)) {
        bench.awaitKept();
        bench.assertAllOnce(new Stored(roomy));
        assertTrue(host.counts().malformed() == 0, "set aside instead of waiting");
      }
    }
  }

  private static void awaitTicks(LoadedBench bench, int ticks) {
    await(ticks + " ticks").atMost(LIMIT).until(() -> bench.ticks() >= ticks);
  }

  /** Until the host has taken in nothing more for a while, though there is more. */
  private static void awaitStandstill(Host host, LoadedBench bench) {
    AtomicLong before = new AtomicLong(-1);
    await("a store that is full")
        .pollInterval(Duration.ofSeconds(2))
        .atMost(LIMIT)
        .until(
            () -> {
              long messages = host.counts().messages();
              return before.getAndSet(messages) == messages && bench.unkept() > 0;
            });
  }

  /** Until the host has kept nothing for many ticks. */
  private static void awaitUnkept(LoadedBench bench) {
    await("events that nobody keeps").atMost(LIMIT).until(() -> bench.unkept() >= MANY);
    awaitTicks(bench, bench.ticks() + MANY);
  }

  @Test
  void aDatabaseThatGoesAwayAndReturnsFindsEverything() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start();
        BrokerProcess broker = BrokerProcess.start(folder);
        LoadedBench bench = new LoadedBench("sill", folder)) {
      Database database = server.database();
      bench.connect(broker.uri());
      try (Host host = host(broker, database)) {
        bench.startLoad(10);
        await("messages").atMost(LIMIT).until(() -> host.counts().messages() >= MANY);
        server.stop();
        awaitUnkept(bench);
        server.run();
        bench.stopLoad();
        bench.awaitKept();
        bench.assertAllOnce(new Stored(database));
        assertTrue(host.counts().malformed() == 0, "set aside instead of waiting");
      }
    }
  }
}
