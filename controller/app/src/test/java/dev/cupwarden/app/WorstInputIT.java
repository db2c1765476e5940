package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.link.RealBroker;
import dev.cupwarden.core.longrun.FolderInMemory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The largest that each input may be, and what is larger, given to the packaged program under the
 * packaged heap: it answers, or refuses with a sentence. Before, a bench file of half a megabyte of
 * short values, or a look back into a day of a large bench, ended it by OutOfMemoryError.
 */
class WorstInputIT {
  private static final Duration SOON = Duration.ofMinutes(3);
  private static final String NO_BROKER = "tcp://127.0.0.1:9";

  /** Bounds as they stand where they are checked. */
  private static final int BENCH_BYTES = 512 * 1024;

  private static final int LINE_BYTES = 256 * 1024;
  private static final int ORDER_BYTES = 4096;
  private static final int INBOX_BYTES = 256 * 1024;
  private static final int PACKS = 50_000;
  private static final int EVENTS = 100_000;
  private static final int DAYS_SEEN = 21;
  private static final int PASSES = 400 * 200 * 3;

  /** The shortest tick that a bench may have makes so many a day. */
  private static final int TICKS_A_DAY = 8640;

  /** An hour before a day of the bench ends. */
  private static final Instant BEGINS = Instant.parse("2026-11-28T23:00:00Z");

  @TempDir(factory = FolderInMemory.class)
  Path folder;

  private Path bench;

  @BeforeEach
  void largestBench() throws Exception {
    bench = Files.writeString(ControllerProcess.bench(folder), LargestBench.text());
  }

  private ControllerProcess start(String speed, String broker, String... more) throws Exception {
    List<String> options =
        new ArrayList<>(List.of("--seed", "7", "--speed", speed, "--broker", broker));
    options.addAll(List.of(more));
    return ControllerProcess.start(folder, options.toArray(String[]::new));
  }

  private ControllerProcess.Answer answer(String in, String... arguments) throws Exception {
    Path text = Files.writeString(folder.resolve("in"), in);
    return ControllerProcess.answer(text, folder, arguments);
  }

  private static void await(String what, Callable<Boolean> isSo) {
    Awaitility.await(what).pollInterval(Duration.ofMillis(200)).atMost(SOON).until(isSo);
  }

  /** As the running program has it, by a look that never holds it up; -1 while there is none. */
  private long look(String query) {
    String file = "jdbc:sqlite:file:" + ControllerProcess.journal(folder) + "?mode=ro";
    try (Connection look = DriverManager.getConnection(file);
        Statement statement = look.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      return row.next() ? row.getLong(1) : -1;
    } catch (SQLException beingMade) {
      return -1;
    }
  }

  private void runTicks(ControllerProcess run, int more) throws Exception {
    long before = Math.max(0, look("SELECT tick FROM state"));
    await(
        more + " more ticks",
        () -> !run.isAlive() || look("SELECT tick FROM state") >= before + more);
    assertTrue(run.isAlive(), run.errors());
  }

  private static void assertRefused(ControllerProcess.Answer answer, String sentence) {
    assertEquals(2, answer.code(), answer.err());
    assertEquals(1, answer.err().strip().lines().count(), answer.err());
    assertTrue(answer.err().contains(sentence), answer.err());
  }

  @Test
  void largestBenchRunsAndIsCheckedAndAdvised() throws Exception {
    assertTrue(Files.size(bench) > BENCH_BYTES / 3, "it is large");
    try (ControllerProcess run = start("300", NO_BROKER)) {
      runTicks(run, 20);
      assertTrue(run.terminate());
    }
    ControllerProcess.Answer check =
        answer("", "check", "--simulate", "--no-ask", "--bench", bench.toString());
    assertTrue(check.out().contains("200 cups"), check.out() + check.err());
  }

  static Stream<Arguments> benchFilesTooLarge() {
    String example = BackRoom.text();
    return Stream.of(
        Arguments.of("#" + "x".repeat(20_000_000), "expected at most 512 KiB"),
        Arguments.of("bench: " + "x".repeat(BENCH_BYTES - 10), "is not usable as text"),
        Arguments.of(
            "bench: [" + "1,".repeat(BENCH_BYTES / 2 - 10) + "1]", "50000 keys and values"),
        Arguments.of(
            "bench: [" + "[],".repeat(BENCH_BYTES / 3 - 10) + "1]", "50000 keys and values"),
        Arguments.of(
            "bench: {" + "a,".repeat(BENCH_BYTES / 2 - 10) + "a}", "50000 keys and values"),
        Arguments.of("bench: [" + "1,".repeat(49_900) + "1]", "bench: a list stands where text"),
        Arguments.of(LargestBench.text(201), "cups: are 201: a bench has at most 200 cups"),
        Arguments.of(
            example.replace(
                "mixes:\n",
                "mixes:\n"
                    + IntStream.range(0, 5_000)
                        .mapToObj(
                            i ->
                                "  m%d: {retention: {saturated: 0.8, residual: 0.1, alpha: 0.2, n: 1.5}}\n"
                                    .formatted(i))
                        .collect(Collectors.joining())),
            "50000 keys and values"));
  }

  @ParameterizedTest
  @MethodSource("benchFilesTooLarge")
  void largerBenchIsRefusedWithASentence(String text, String sentence) throws Exception {
    Files.writeString(bench, text);
    assertRefused(answer("", "advise", "--bench", bench.toString()), sentence);
  }

  private static String line(Instant at, int bytes) {
    List<String> cups = LargestBench.cups();
    StringBuilder line = new StringBuilder("{\"at\":\"" + at + "\",\"air_c\":20,\"rh_pct\":60");
    for (String field : List.of("mass_g", "theta")) {
      String value = field.equals("theta") ? "0.412345678901234" : "398.123456789012";
      line.append(",\"").append(field).append("\":{");
      line.append(
          cups.stream().map(cup -> "\"" + cup + "\":" + value).collect(Collectors.joining(",")));
      line.append('}');
    }
    line.append(",\"orders\":[");
    for (int i = 0; line.length() < bytes - 200; i++) {
      line.append(i == 0 ? "" : ",");
      line.append(
          "{\"id\":\"" + at + i + "\",\"kind\":\"clear\",\"cup\":\"" + cups.get(i % 200) + "\"}");
    }
    line.append("]}");
    return line + " ".repeat(bytes - line.length()) + "\n";
  }

  @Test
  void largestLinesOfAdviceAreAnsweredAndALargerOneRefused() throws Exception {
    Instant at = Instant.parse("2027-01-10T08:00:00Z");
    ControllerProcess.Answer advice =
        answer(
            line(at, LINE_BYTES)
                + line(at.plusSeconds(300), LINE_BYTES + 1)
                + "x".repeat(100 * LINE_BYTES)
                + "\n"
                + line(at.plusSeconds(600), LINE_BYTES),
            "advise",
            "--bench",
            bench.toString());
    List<String> answers = advice.out().lines().toList();
    assertEquals(4, answers.size(), advice.err());
    assertTrue(answers.get(0).startsWith("{\"at\":\"2027-01-10T08:00:00Z\""), answers.get(0));
    assertEquals("{\"error\":\"line 2: is longer than 256 KiB\"}", answers.get(1));
    assertEquals("{\"error\":\"line 3: is longer than 256 KiB\"}", answers.get(2));
    assertTrue(answers.get(3).startsWith("{\"at\":\"2027-01-10T08:10:00Z\""), answers.get(3));
  }

  @Test
  void largestTableIsAnswered() throws Exception {
    String columns = String.join(",", LargestBench.cups());
    String cells = ",398.123456789012".repeat(200);
    ControllerProcess.Answer advice =
        answer(
            "at,"
                + columns
                + "\n2027-01-10T08:00:00Z"
                + cells
                + "\n"
                + ",".repeat(LINE_BYTES)
                + "\n",
            "advise",
            "--bench",
            bench.toString());
    List<String> answers = advice.out().lines().toList();
    assertEquals(2, answers.size(), advice.err());
    assertTrue(answers.get(0).startsWith("{\"at\""), answers.get(0));
    assertTrue(answers.get(1).startsWith("{\"error\":\"line 3: has 262145 cells"), answers.get(1));
  }

  @Test
  void inboxFullOfTheLargestOrdersIsTaken() throws Exception {
    try (ControllerProcess run = start("300", NO_BROKER)) {
      runTicks(run, 2);
      assertTrue(run.terminate());
    }
    Instant now = Instant.now();
    List<String> cups = LargestBench.cups().subList(0, 100);
    int orders = INBOX_BYTES / ORDER_BYTES;
    try (Connection direct = direct();
        PreparedStatement insert =
            direct.prepareStatement(
                "INSERT INTO inbox (id, received, expires, body) VALUES (?, ?, ?, ?)")) {
      direct.setAutoCommit(false);
      for (int i = 0; i < orders; i++) {
        Instant expires = now.plus(Duration.ofHours(40));
        String order =
            """
            {"id":"o-%d","kind":"hold","cups":["%s"],"until":"%s","issued":"%s","expires":"%s","by":"%s"}"""
                .formatted(i, String.join("\",\"", cups), expires, now, expires, "%s");
        String padded = order.formatted("x".repeat(ORDER_BYTES - order.length() + 2));
        assertEquals(ORDER_BYTES, padded.length());
        insert.setString(1, "o-" + i);
        insert.setString(2, now.toString());
        insert.setString(3, expires.toString());
        insert.setString(4, padded);
        insert.executeUpdate();
      }
      direct.commit();
    }
    try (ControllerProcess run = start("300", NO_BROKER)) {
      await(
          "all are taken",
          () -> !run.isAlive() || look("SELECT count(*) FROM inbox WHERE taken_tick IS NULL") == 0);
      runTicks(run, 2);
      assertEquals(orders, look("SELECT count(*) FROM event WHERE kind = 'receipt'"));
      assertTrue(run.terminate());
    }
  }

  private Connection direct() throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + ControllerProcess.journal(folder));
  }

  /** A journal that nobody took anything of for as long as it keeps anything. */
  @Test
  void journalOfASeasonIsGoneOnWithToldAndReadBack() throws Exception {
    try (ControllerProcess run = start("300", NO_BROKER, "--begins", BEGINS.toString())) {
      runTicks(run, 3);
      assertTrue(run.terminate());
    }
    fillTheJournal();
    try (RealBroker broker = RealBroker.start(folder)) {
      Process listener =
          new ProcessBuilder(
                  "mosquitto_sub", "-V", "mqttv5", "-p", "" + broker.port(), "-q", "1", "-t", "#")
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      try (ControllerProcess run =
          start("300", broker.uri().toString(), "--begins", BEGINS.toString())) {
        runTicks(run, 5);
        await(
            "a day's end",
            () ->
                !run.isAlive()
                    || look(
                            "SELECT count(*) FROM start WHERE cause = 'day' AND at > '"
                                + BEGINS
                                + "'")
                        > 0);
        runTicks(run, 5);
        assertTrue(run.terminate());
      } finally {
        listener.destroy();
      }
    }
    String journal = ControllerProcess.journal(folder).toString();
    assertEquals(0, answer("", "journal", "starts", journal).code());
    String at = Instant.parse(firstSeen()).plusSeconds(600).toString();
    ControllerProcess.Answer why =
        answer("", "journal", "why", journal, "--cup", LargestBench.cups().get(0), "--at", at);
    assertEquals(0, why.code(), why.err());
    assertTrue(why.out().contains(LargestBench.cups().get(0)), why.out());
    assertEquals(0, answer("", "journal", "backup", journal, journal + ".copy").code());
  }

  private String firstSeen() throws SQLException {
    try (Connection direct = direct();
        Statement statement = direct.createStatement();
        ResultSet row = statement.executeQuery("SELECT min(at) FROM observation")) {
      return row.getString(1);
    }
  }

  private void fillTheJournal() throws Exception {
    long ticks = DAYS_SEEN * 288L + TICKS_A_DAY;
    long shift = Math.max(ticks, PACKS) + 10;
    Instant begins = BEGINS.minus(Duration.ofDays(DAYS_SEEN));
    try (Connection direct = direct();
        Statement sql = direct.createStatement()) {
      sql.execute("PRAGMA synchronous = OFF");
      direct.setAutoCommit(false);
      sql.execute(
          "CREATE TEMP TABLE n AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1"
              + " FROM n WHERE i < "
              + PASSES
              + ") SELECT i FROM n");
      // Of an earlier program's row no checksum is asked.
      sql.execute("UPDATE state SET crc = NULL, tick = tick + " + shift);
      sql.execute("DELETE FROM start WHERE cause = 'day'");
      sql.execute(
          "INSERT INTO start SELECT (i - 1) * 288 + (i > 1) * "
              + TICKS_A_DAY
              + " + 1,"
              + " strftime('%Y-%m-%dT%H:%M:%SZ', '"
              + begins
              + "', '+' || (i - 1) || ' days'),"
              + " 'day', s.epoch, s.version, s.bench, s.state FROM n, (SELECT * FROM start LIMIT 1)"
              + " AS s WHERE i <= "
              + DAYS_SEEN);
      sql.execute("DELETE FROM start WHERE cause = 'start'");
      sql.execute(
          "INSERT INTO pack SELECT i + 5, at, senml FROM n, (SELECT * FROM pack ORDER BY tick DESC"
              + " LIMIT 1) WHERE i <= "
              + PACKS);
      sql.execute(
          "INSERT INTO event SELECT (SELECT last_seq FROM numbering) + i, at, kind, cup, data FROM n,"
              + " (SELECT * FROM event LIMIT 1) WHERE i <= "
              + EVENTS);
      sql.execute("UPDATE numbering SET last_seq = last_seq + " + EVENTS);
      sql.execute(
          "INSERT INTO pass (tick, at, cup, plain_ml, feed_ml, strength, why, outcome, outcome_at,"
              + " ran_plain_ml, ran_feed_ml) SELECT i, strftime('%Y-%m-%dT%H:%M:%SZ', '"
              + begins
              + "', '-' || (i % 370) || ' days'), 'C' || (i % 200), 20, 10, 0.5, 'due', 'given', '"
              + begins
              + "', 20, 10 FROM n");
      see(direct, begins);
      direct.commit();
    }
  }

  /** A first day at the shortest tick, then days at the usual one. */
  private static void see(Connection direct, Instant begins) throws SQLException {
    String line;
    try (Statement sql = direct.createStatement();
        ResultSet row =
            sql.executeQuery("SELECT line FROM observation ORDER BY tick DESC LIMIT 1")) {
      line = row.getString(1);
    }
    String rest = line.substring(line.indexOf(','));
    try (Statement sql = direct.createStatement()) {
      sql.execute("DELETE FROM observation");
    }
    try (PreparedStatement insert =
        direct.prepareStatement("INSERT INTO observation VALUES (?, ?, ?)")) {
      for (int tick = 1; tick <= TICKS_A_DAY + (DAYS_SEEN - 1) * 288; tick++) {
        Duration after =
            tick <= TICKS_A_DAY
                ? Duration.ofSeconds(10L * tick)
                : Duration.ofDays(1).plusMinutes(5L * (tick - TICKS_A_DAY));
        String at = begins.plus(after).toString();
        insert.setInt(1, tick);
        insert.setString(2, at);
        insert.setString(3, "{\"at\":\"" + at + "\"" + rest);
        insert.executeUpdate();
      }
    }
  }

  private Path large(String name) throws Exception {
    return Files.writeString(folder.resolve(name), "x".repeat(60_000_000));
  }

  @Test
  void largeFilesBesideAreRefusedOrPassedOver() throws Exception {
    String password = large("password").toString();
    assertRefused(
        answer(
            "",
            "run",
            "--simulate",
            "--bench",
            bench.toString(),
            "--journal",
            ControllerProcess.journal(folder).toString(),
            "--user",
            "u",
            "--password-file",
            password),
        "password is larger than expected: at most 256 KiB");
    Files.writeString(bench, BackRoom.text());
    large("calibration.jsonl");
    ControllerProcess.Answer history =
        answer("", "calibrate", "history", "--data", folder.toString());
    assertEquals(1, history.code());
    assertTrue(history.err().contains("calibration.jsonl is larger than expected"), history.err());
    assertRefused(
        answer("", "rehearse", "--days", "1", "--bench", password), "expected at most 512 KiB");
    large("journal.db.tick");
    large("journal.db.starts");
    try (ControllerProcess run = start("300", NO_BROKER)) {
      runTicks(run, 2);
      assertFalse(run.errors().contains("OutOfMemory"), run.errors());
      assertTrue(run.terminate());
    }
  }
}
