package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.link.Listener;
import dev.cupwarden.app.link.RealBroker;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.core.messages.Topics;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The packaged program with the packaged heap under more than any person orders. Before, 500 orders
 * of 60 kB ended its loop while it stayed online, and every start after.
 */
class FloodedRunIT {
  private static final Topics TOPICS = new Topics("back-room");
  private static final Duration SOON = Duration.ofSeconds(120);

  /** Of the bench that is flooded. */
  private static final double TICK_S = 300;

  /** A tick each five seconds; {@code -Plong} makes it each half minute. */
  private static final String SPEED = System.getProperty("flood.speed", "60");

  @TempDir Path folder;

  private ControllerProcess start(RealBroker broker) throws Exception {
    return ControllerProcess.start(
        folder, "--seed", "7", "--speed", SPEED, "--broker", broker.uri().toString());
  }

  private static void await(String what, Callable<Boolean> isSo) {
    Awaitility.await(what).atMost(SOON).until(isSo);
  }

  private static Instant benchTime(Listener host) {
    var told = host.on(TOPICS.benchStatus());
    return Instant.parse(told.get(told.size() - 1).body().get("at").asText());
  }

  private static void awaitTicks(Listener host, int more) {
    int before = host.on(TOPICS.readings()).size();
    await("readings go on", () -> host.on(TOPICS.readings()).size() >= before + more);
  }

  private static String order(String id, String kind, String fields, int bytes, Instant now) {
    String order =
        """
        {"id":"%s","kind":"%s",%s"issued":"%s","expires":"%s","by":"%s"}"""
            .formatted(id, kind, fields, now, now.plus(Duration.ofHours(40)), "%s");
    return order.formatted("x".repeat(Math.max(1, bytes - order.length())));
  }

  private static boolean isAnswered(Listener host, String id, String outcome) {
    return host.on(TOPICS.receipts()).stream()
        .map(Listener.Heard::body)
        .anyMatch(
            receipt ->
                receipt.path("id").asText().equals(id)
                    && receipt.path("outcome").asText().equals(outcome));
  }

  private static void flood(Listener host) throws Exception {
    Instant now = benchTime(host);
    for (int i = 0; i < 500; i++) {
      host.say(TOPICS.orders(), order("long-" + i, "release", "", 60_000, now), false);
    }
    for (int i = 0; i < 400; i++) {
      String fields = "\"cup\":\"A1\",\"ml\":10,\"strength\":0,";
      host.say(TOPICS.orders(), order("dose-" + i, "dose", fields, 4_000, now), false);
    }
    host.say(TOPICS.kept(), "{\"epoch\":\"" + "x".repeat(100_000) + "\",\"seq\":1}", true);
    host.say(TOPICS.kept(), "{\"epoch\":\"" + "x".repeat(400_000) + "\",\"seq\":1}", true);
    String until = "\"until\":\"" + now.plus(Duration.ofHours(30)) + "\",";
    host.say(TOPICS.orders(), order("stop", "hold", until, 300, now), false);
  }

  @Test
  @Tag("long")
  void readingsGoOnAHoldIsHeardAndARestartChangesNothing() throws Exception {
    long begun = System.nanoTime();
    double holdS;
    try (RealBroker broker = RealBroker.start(folder);
        Listener host = new Listener(broker.uri())) {
      try (ControllerProcess run = start(broker)) {
        await("a state", () -> !host.on(TOPICS.benchStatus()).isEmpty());
        long flooded = System.nanoTime();
        flood(host);
        await("the hold is done", () -> isAnswered(host, "stop", "done"));
        holdS = (System.nanoTime() - flooded) / 1e9;
        await("no room is left", () -> isAnswered(host, "dose-399", "refused"));
        awaitTicks(host, 3);
        assertTrue(run.isAlive());
        run.kill();
      }
      fillTheInboxAsBefore();
      try (ControllerProcess run = start(broker)) {
        awaitTicks(host, 2);
        await("told why", () -> isAnswered(host, "old-499", "refused"));
        flood(host);
        awaitTicks(host, 3);
        assertTrue(run.isAlive());
        assertTrue(run.terminate());
      }
      assertEquals(
          0,
          host.on(TOPICS.beat())
              .get(host.on(TOPICS.beat()).size() - 1)
              .body()
              .get("starts_in_vain")
              .asInt());
      report(host, Duration.ofNanos(System.nanoTime() - begun), holdS);
    }
  }

  private static void report(Listener host, Duration took, double holdS) throws Exception {
    List<Instant> ticks =
        host.on(TOPICS.benchStatus()).stream()
            .map(told -> Instant.parse(told.body().get("at").asText()))
            .distinct()
            .toList();
    long longestS = 0;
    for (int i = 1; i < ticks.size(); i++) {
      longestS = Math.max(longestS, Duration.between(ticks.get(i - 1), ticks.get(i)).toSeconds());
    }
    long refused =
        host.on(TOPICS.receipts()).stream()
            .filter(receipt -> receipt.body().path("outcome").asText().equals("refused"))
            .count();
    TestReport.put(
        "Flooded orders",
        took,
        "twice 500 orders of 60 kB and 400 of 4 kB to the packaged program at a tick each %.0f s, and 500 of 60 kB in the inbox at its restart: %,d receipts of refusal, some told twice; an order to hold, said last, done within %.1f s of the first of them; %d ticks told, at most %.0f s apart; one process all along, but for the restart."
            .formatted(
                TICK_S / Double.parseDouble(SPEED),
                refused,
                holdS,
                ticks.size(),
                longestS / Double.parseDouble(SPEED)));
  }

  /** What the program before this one took in. */
  private void fillTheInboxAsBefore() throws Exception {
    String journal = "jdbc:sqlite:" + ControllerProcess.journal(folder);
    Instant now = Instant.now();
    try (Connection direct = DriverManager.getConnection(journal);
        PreparedStatement insert =
            direct.prepareStatement(
                "INSERT INTO inbox (id, received, expires, body) VALUES (?, ?, ?, ?)")) {
      direct.setAutoCommit(false);
      for (int i = 0; i < 500; i++) {
        insert.setString(1, "old-" + i);
        insert.setString(2, now.toString());
        insert.setString(3, now.plus(Duration.ofDays(30)).toString());
        insert.setString(4, order("old-" + i, "release", "", 60_000, now));
        insert.executeUpdate();
      }
      direct.commit();
    }
  }
}
