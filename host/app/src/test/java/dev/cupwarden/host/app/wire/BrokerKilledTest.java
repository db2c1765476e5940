package dev.cupwarden.host.app.wire;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

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
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A broker that is taken away, at random and for days, while a real controller's link tells its
 * journal to a real host. {@code -Dbroker.kills=N} and {@code -Dbroker.seed=N} for other rounds.
 */
class BrokerKilledTest {
  private static final int KILLS = Integer.getInteger("broker.kills", 10);

  /** The embedded one takes seconds to start, so the usual build is spared the rest. */
  private static final int EMBEDDED_KILLS = Integer.getInteger("broker.kills", 2);

  private static final long SEED = Long.getLong("broker.seed", 20270214L);
  private static final int AWAY_TICKS = 72 * 4;
  private static final Duration LIMIT = Duration.ofSeconds(60);
  private static final long LONGEST_UP_MS = 400;
  private static PostgresqlServer server;
  @TempDir Path folder;

  @BeforeAll
  static void startServer() throws Exception {
    server = PostgresqlServer.start();
  }

  @AfterAll
  static void stopServer() throws Exception {
    server.close();
  }

  private Database database(String kind) throws Exception {
    if (kind.equals("SQLite")) {
      return Database.sqlite(folder.resolve("host.db"));
    }
    return server.create("killed" + System.nanoTime());
  }

  private Host host(FailingBroker broker, Database database) throws Exception {
    return Host.start(
        HostSettings.local(
                Files.createDirectories(folder.resolve("host")),
                LoopbackPort.anyFree("the page", "--port"),
                LoopbackPort.anyFree("the broker", "--broker-port"))
            .keeping(new Keeping(database, Retention.USUAL))
            .withBroker(new OtherBroker(broker.uri(), Optional.empty(), false)));
  }

  private FailingBroker broker(String kind) throws Exception {
    return kind.equals("embedded") ? FailingBroker.embedded(folder) : FailingBroker.process(folder);
  }

  @ParameterizedTest
  @CsvSource({
    "a process, SQLite",
    "a process, PostgreSQL",
    "embedded, SQLite",
    "embedded, PostgreSQL"
  })
  void killedAtRandomNothingIsLostAndNothingDoubled(String brokerKind, String databaseKind)
      throws Exception {
    Random random = new Random(SEED);
    Database database = database(databaseKind);
    int kills = brokerKind.equals("embedded") ? EMBEDDED_KILLS : KILLS;
    int unkeptAtKills = 0;
    try (FailingBroker broker = broker(brokerKind);
        Host host = host(broker, database);
        LoadedBench bench = new LoadedBench("sill", folder)) {
      bench.connect(broker.uri());
      bench.startLoad(10);
      for (int kill = 0; kill < kills; kill++) {
        awaitOnline(bench);
        TimeUnit.MILLISECONDS.sleep(random.nextLong(LONGEST_UP_MS));
        broker.kill();
        unkeptAtKills += bench.unkept();
        broker.run();
      }
      bench.stopLoad();
      bench.awaitKept();
      bench.assertAllOnce(new Stored(database));
      assertEquals(0, host.counts().malformed());
      System.out.printf(
          "%s, %s: %d ticks, %d kills, %d events under way at them, %d told more than once%n",
          brokerKind, databaseKind, bench.ticks(), kills, unkeptAtKills, host.counts().doubles());
    }
    assertTrue(unkeptAtKills > 0, "no kill hit anything");
  }

  private static void awaitOnline(LoadedBench bench) {
    await("the link is back")
        .pollInterval(Duration.ofMillis(10))
        .atMost(LIMIT)
        .until(bench::isOnline);
  }

  @ParameterizedTest
  @ValueSource(strings = {"SQLite", "PostgreSQL"})
  void awayForThreeDaysAllOfItIsToldAfterwardsAndOnce(String databaseKind) throws Exception {
    Database database = database(databaseKind);
    try (FailingBroker broker = broker("a process");
        Host host = host(broker, database);
        LoadedBench bench = new LoadedBench("sill", folder)) {
      bench.connect(broker.uri());
      bench.tick();
      bench.awaitKept();
      broker.kill();
      for (int tick = 0; tick < AWAY_TICKS; tick++) {
        bench.tick();
      }
      assertEquals(2 * AWAY_TICKS, bench.unkept());
      broker.run();
      bench.awaitKept();
      bench.assertAllOnce(new Stored(database));
      assertEquals(0, host.counts().malformed());
    }
  }
}
