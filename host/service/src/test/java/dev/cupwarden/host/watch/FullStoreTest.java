package dev.cupwarden.host.watch;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Beat.Doing;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Topics;
import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.Spoken;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.ingest.Ingest;
import dev.cupwarden.host.notify.NoticeService;
import dev.cupwarden.host.notify.NoticeSettings;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.RejectedMessages.RejectedRow;
import dev.cupwarden.host.store.Store;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import org.jdbi.v3.core.JdbiException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A store that takes nothing more, really: what people are told then, and afterwards. */
class FullStoreTest {
  private static final Topics SILL = new Topics("sill");
  private static final long GB = 1_000_000_000L;
  @TempDir Path folder;
  private final AtomicReference<Instant> now = new AtomicReference<>(EIGHT);
  private final AtomicReference<Optional<Disk.Room>> room =
      new AtomicReference<>(Optional.of(new Disk.Room(50 * GB, 100 * GB)));
  private GreenMail mail;
  private Store store;
  private StoreWatch watch;
  private NoticeService notices;
  private HostAlerts alerts;
  private Ingest ingest;
  private Heartbeats beats;
  private SilenceWatch silence;

  @BeforeEach
  void startMail() {
    mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mail.start();
  }

  @AfterEach
  void stop() {
    ingest.close();
    store.close();
    mail.stop();
  }

  private void start(Database database) throws Exception {
    store = Store.open(database);
    Path file = folder.resolve("notices.yaml");
    Files.writeString(
        file,
        "mail: {host: 127.0.0.1, port: %d, security: NONE, from: a@example.org, to: [b@example.org]}%n"
            .formatted(mail.getSmtp().getPort()));
    watch =
        new StoreWatch(
            store, "this-host", now::get, room::get, () -> ingest.waitingSince(), state -> {});
    beats = new Heartbeats();
    notices =
        new NoticeService(
            store, now::get, now::get, NoticeSettings.read(file), event -> {}, watch::takes);
    ingest =
        new Ingest(
            store,
            now::get,
            live -> {},
            (topic, payload) -> {},
            notices,
            (bench, beat) -> beats.hear(bench, beat, now.get()),
            watch::refused);
    alerts = notices.alerts();
    silence = new SilenceWatch(store, now::get, beats, alerts, () -> true, watch::takes);
    watch.start();
    ingest.start();
    look();
  }

  /** What the host's threads do now and again. */
  private void look() {
    watch.mark();
    watch.tell(alerts);
    silence.run();
    alerts.catchUp();
    notices.run();
  }

  private void pass(Duration time) {
    Duration step = Duration.ofSeconds(time.compareTo(Duration.ofHours(1)) > 0 ? 3600 : 20);
    Instant end = now.get().plus(time);
    while (now.get().isBefore(end)) {
      now.updateAndGet(before -> before.plus(step));
      look();
    }
  }

  private void say(String topic, Object message) throws Exception {
    ingest.receive(new Delivery(topic, Json.MAPPER.writeValueAsBytes(message), false, () -> {}));
  }

  private String mails() {
    return Arrays.stream(mail.getReceivedMessages())
        .map(GreenMailUtil::getWholeMessage)
        .map(text -> text.replace("=\r\n", "").replace("\r\n", " "))
        .collect(Collectors.joining("\n"));
  }

  private long count(String part) {
    return mails().split(part, -1).length - 1L;
  }

  private boolean isOpen(String bench, String code) {
    return store
        .alerts()
        .find(new Alerts.Key(bench, code, Optional.empty()))
        .filter(AlertRow::isOpen)
        .isPresent();
  }

  /** The file may not grow further: SQLite itself says that it is full. */
  private void fill() throws Exception {
    RejectedRow row = new RejectedRow(EIGHT, "filler", "x".repeat(500), 500, "x".repeat(500));
    int rows = 100;
    while (rows > 0) {
      int many = rows;
      try {
        store.write(
            handle -> {
              for (int each = 0; each < many; each++) {
                store.rejectedMessages().insert(handle, row);
              }
            });
      } catch (JdbiException noRoom) {
        assertTrue(String.valueOf(noRoom.getCause()).contains("full"), noRoom::toString);
        rows /= 10;
      }
    }
    for (int seq = 1; ingest.waitingSince().isEmpty(); seq++) {
      assertTrue(seq < 200, "there was room");
      say(SILL.events(), Spoken.dose("e", seq, "A1", EIGHT.plusSeconds(seq)));
      await("taken in, or full")
          .pollInterval(Duration.ofMillis(5))
          .until(() -> ingest.backlog() == 0 || ingest.waitingSince().isPresent());
    }
  }

  private void storyOfWhatIsTold(ThrowingRunnable roomAgain) throws Exception {
    assertFalse(mails().contains("host store full"));
    say(SILL.events(), Spoken.alert("f", 1, "leak", "raised", EIGHT));
    say(SILL.beat(), new Beat(now.get(), "a", 7, Doing.WAITING, 1, 60, 0));
    pass(Duration.ofSeconds(40));
    assertTrue(watch.takes(), "a minute is given to it");
    pass(Duration.ofMinutes(3));
    assertFalse(watch.takes());
    ingest.overhearWaiting();
    pass(Duration.ofMinutes(3));
    String told = mails();
    assertTrue(told.contains("Subject: Host: host store full"), told);
    assertTrue(told.contains("has taken nothing since"), told);
    assertTrue(told.contains("Subject: Bench sill: leak"), "it had never been told: " + told);
    assertTrue(told.contains("controller silent"), "the host's own as well: " + told);
    long mails = mail.getReceivedMessages().length;
    pass(Duration.ofMinutes(10));
    assertEquals(mails, mail.getReceivedMessages().length, "each is told once");
    pass(Duration.ofDays(1));
    pass(Duration.ofMinutes(2));
    assertEquals(2, count("Subject: Host: host store full"), "and again after a day");
    roomAgain.run();
    // Real time: the ingest looks again every five seconds at most.
    await("what waited is stored")
        .atMost(Duration.ofSeconds(60))
        .until(() -> ingest.waitingSince().isEmpty() && ingest.backlog() == 0);
    pass(Duration.ofMinutes(5));
    assertTrue(watch.takes());
    assertTrue(isOpen("sill", "leak"), "what waited is stored");
    assertTrue(isOpen("sill", "controller-silent"), "also what the host found meanwhile");
    assertFalse(isOpen(HostAlerts.HOST, "host-store-full"));
    assertEquals(1, count("Subject: Bench sill: leak"), "stored later, not told once more");
    assertEquals(0, store.notices().waiting());
  }

  private interface ThrowingRunnable {
    void run() throws Exception;
  }

  @Test
  void aFullSqliteStoreSilencesNobody() throws Exception {
    Path file = folder.resolve("host.db");
    start(Database.sqlite(Path.of(file + "?max_page_count=150")));
    fill();
    storyOfWhatIsTold(
        () -> store.write(handle -> handle.execute("DELETE FROM aside WHERE topic = 'filler'")));
  }

  /** The server takes no writes, as when its own disk is full. */
  @Test
  void aPostgresqlThatTakesNothingSilencesNobody() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start()) {
      start(server.database());
      readOnly(server, true);
      storyOfWhatIsTold(() -> readOnly(server, false));
    }
  }

  private static void readOnly(PostgresqlServer server, boolean on) throws SQLException {
    String url = "jdbc:postgresql://127.0.0.1:" + server.port() + "/postgres";
    try (Connection connection = DriverManager.getConnection(url, "postgres", "");
        var statement = connection.createStatement()) {
      statement.execute("SET default_transaction_read_only = off");
      statement.execute("ALTER SYSTEM SET default_transaction_read_only = " + (on ? "on" : "off"));
      statement.execute("SELECT pg_reload_conf()");
    }
  }

  @Test
  void littleRoomIsToldEarlyAndThatNothingIsTakenIsToldAnew() throws Exception {
    start(Database.sqlite(folder.resolve("host.db")));
    room.set(Optional.of(new Disk.Room(499_000_000, 100 * GB)));
    pass(Duration.ofMinutes(2));
    assertTrue(watch.takes() && watch.state().low());
    assertTrue(mails().contains("has 499 MB left"), mails());
    room.set(Optional.of(new Disk.Room(510_000_000, 100 * GB)));
    pass(Duration.ofMinutes(2));
    assertTrue(watch.state().low(), "it comes and goes");
    room.set(Optional.of(new Disk.Room(610_000_000, 100 * GB)));
    pass(Duration.ofMinutes(2));
    assertFalse(watch.state().low());
    assertTrue(mails().contains("host store full is over"), mails());
    room.set(Optional.of(new Disk.Room(190_000_000, 4 * GB)));
    pass(Duration.ofMinutes(2));
    assertTrue(watch.state().low(), "one part in twenty of a small disk");
    room.set(Optional.empty());
    pass(Duration.ofMinutes(2));
    assertFalse(watch.state().low(), "what cannot be seen is not told");
  }

  @Test
  void moreThanIsReadByAnybodyIsNotKeptInMemory() throws Exception {
    start(Database.sqlite(Path.of(folder.resolve("host.db") + "?max_page_count=150")));
    fill();
    pass(Duration.ofMinutes(2));
    for (int seq = 1; seq <= 1_000; seq++) {
      byte[] alert =
          Json.MAPPER.writeValueAsBytes(
              Spoken.alert("g", seq, "mad-" + seq, "raised", EIGHT.plusSeconds(seq)));
      ingest.overhear(new Delivery(SILL.events(), alert, false, () -> {}));
    }
    pass(Duration.ofMinutes(2));
    long told = count("Mad ");
    assertTrue(told >= 190 && told <= 200, "told: " + told);
    assertEquals(List.of(), List.copyOf(store.alerts().open("sill")));
  }
}
