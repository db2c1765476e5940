package dev.cupwarden.host.bench;

import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.SenmlRecord;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.BrokerProcess;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.HostSettings;
import dev.cupwarden.host.HostSettings.OtherBroker;
import dev.cupwarden.host.broker.LoopbackPort;
import dev.cupwarden.host.store.Curve;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Readings.Reading;
import dev.cupwarden.host.store.Store;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.mqttv5.client.IMqttToken;
import org.eclipse.paho.mqttv5.client.MqttActionListener;
import org.eclipse.paho.mqttv5.client.MqttAsyncClient;
import org.eclipse.paho.mqttv5.client.persist.MemoryPersistence;
import org.eclipse.paho.mqttv5.common.MqttMessage;

/** Prints how fast readings are taken in, next to a bare insert of the same rows, and a chart. */
public final class HostBench {
  private static final int CUPS = 200;
  private static final int PACKS = 3_000;
  private static final int ROWS = CUPS * PACKS;
  private static final int UNDER_WAY = 100;
  private static final Instant START = Instant.parse("2027-01-01T00:00:00Z");

  private HostBench() {}

  public static void main(String[] arguments) throws Exception {
    Path folder = Files.createTempDirectory("cupwarden-bench");
    double bare = bareInsert(folder.resolve("bare.db"));
    System.out.printf("bare SQLite insert of %d rows: %.0f rows/s%n", ROWS, bare);
    ingest(local(folder.resolve("warm")), PACKS / 3); // A host runs for months, compiled.
    print("embedded broker", ingest(local(folder.resolve("own")), PACKS), bare);
    try (BrokerProcess broker = BrokerProcess.start(folder)) {
      HostSettings settings =
          local(folder.resolve("other"))
              .withBroker(new OtherBroker(broker.uri(), Optional.empty(), false));
      print("broker beside the host", ingest(settings, PACKS), bare);
    }
    season(folder.resolve("season.db"));
    System.exit(0);
  }

  private static void print(String what, double rate, double bare) {
    System.out.printf(
        "ingest, %s, QoS 1, packs of %d: %.0f readings/s, %.2f of the bare insert%n",
        what, CUPS, rate, rate / bare);
  }

  private static HostSettings local(Path data) {
    return HostSettings.local(
        data,
        LoopbackPort.anyFree("the page", "--port"),
        LoopbackPort.anyFree("the broker", "--broker-port"));
  }

  /** The same rows into the same table, 1,000 to a batch, 100,000 to a transaction. */
  private static double bareInsert(Path file) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement settings = connection.createStatement()) {
      settings.execute("PRAGMA journal_mode = WAL");
      settings.execute("PRAGMA synchronous = FULL");
      settings.execute(
          "CREATE TABLE readings (series BIGINT NOT NULL, at_ms BIGINT NOT NULL,"
              + " value DOUBLE PRECISION NOT NULL, PRIMARY KEY (series, at_ms)) WITHOUT ROWID");
      connection.setAutoCommit(false);
      long began = System.nanoTime();
      try (PreparedStatement insert =
          connection.prepareStatement("INSERT INTO readings VALUES (?, ?, ?)")) {
        for (int row = 0; row < ROWS; row++) {
          insert.setLong(1, row % CUPS);
          insert.setLong(2, START.toEpochMilli() + (row / CUPS) * 1000L);
          insert.setDouble(3, 300 + row % 7);
          insert.addBatch();
          if (row % 1_000 == 999) {
            insert.executeBatch();
          }
          if (row % 100_000 == 99_999) {
            connection.commit();
          }
        }
        connection.commit();
      }
      return ROWS / seconds(began);
    }
  }

  private static double seconds(long began) {
    return (System.nanoTime() - began) / 1e9;
  }

  private static double ingest(HostSettings settings, int count) throws Exception {
    List<byte[]> packs = new ArrayList<>();
    for (int pack = 0; pack < count; pack++) {
      packs.add(pack(START.plusSeconds(pack)));
    }
    try (Host host = Host.start(settings)) {
      MqttAsyncClient bench =
          new MqttAsyncClient(host.brokerUri(), "bench", new MemoryPersistence());
      bench.connect().waitForCompletion();
      Semaphore underWay = new Semaphore(UNDER_WAY);
      Acknowledged acknowledged = new Acknowledged(underWay);
      long began = System.nanoTime();
      for (byte[] pack : packs) {
        underWay.acquire();
        bench.publish(
            new Topics("bench").readings(), new MqttMessage(pack, 1, false, null), null,
            acknowledged);
      }
      while (host.counts().readings() < (long) count * CUPS) {
        TimeUnit.MILLISECONDS.sleep(5);
      }
      double rate = count * CUPS / seconds(began);
      bench.disconnect().waitForCompletion();
      bench.close();
      return rate;
    }
  }

  private record Acknowledged(Semaphore underWay) implements MqttActionListener {
    @Override
    public void onSuccess(IMqttToken token) {
      underWay.release();
    }

    @Override
    public void onFailure(IMqttToken token, Throwable why) {
      throw new IllegalStateException("a pack was not taken", why);
    }
  }

  private static byte[] pack(Instant at) throws Exception {
    List<SenmlRecord> records = new ArrayList<>();
    for (int cup = 0; cup < CUPS; cup++) {
      records.add(
          new SenmlRecord(
              cup == 0 ? "bench/" : null,
              cup == 0 ? at.toEpochMilli() / 1000.0 : null,
              "C" + cup + "/mass",
              "g",
              300 + cup % 7));
    }
    return Json.MAPPER.writeValueAsBytes(records);
  }

  /** One cup, 180 days at one reading a minute, as the points of a chart. */
  private static void season(Path file) {
    int minutes = 180 * 1440;
    try (Store store = Store.open(Database.sqlite(file))) {
      List<Reading> readings = new ArrayList<>();
      for (int minute = 0; minute < minutes; minute++) {
        readings.add(
            new Reading(
                "bench", "A1/mass", "g", START.plusSeconds(60L * minute), 300 - minute % 4000 * 0.03));
      }
      store.write(handle -> store.readings().insert(handle, readings));
      long rolling = System.nanoTime();
      store.rollups().rollUp(Instant.EPOCH);
      System.out.printf("rolling up a season of one cup: %.1f s%n", seconds(rolling));
      double[] tookMs = new double[21];
      Curve curve = null;
      for (int run = 0; run < tookMs.length; run++) {
        long began = System.nanoTime();
        curve =
            store
                .readings()
                .overview("bench", "A1/mass", START, START.plus(Duration.ofDays(180)))
                .thinned(2_000);
        tookMs[run] = seconds(began) * 1000;
      }
      double firstMs = tookMs[0];
      Arrays.sort(tookMs);
      System.out.printf(
          "a season of one cup as %d points: first %.1f ms, median %.1f ms%n",
          curve.size(), firstMs, tookMs[tookMs.length / 2]);
    }
  }
}
