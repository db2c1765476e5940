package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.SomeState;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Orders that wait, and what is done with more of them than make sense. */
class InboxTest {
  private static final Instant AT = Instant.parse("2027-01-10T08:00:00Z");
  private static final Instant LATER = AT.plusSeconds(3600);

  @TempDir Path folder;
  private Journal journal;
  private Outbox outbox;

  @BeforeEach
  void open() throws JournalException {
    journal = Journal.open(folder.resolve("journal.db"));
    outbox = Outbox.of(journal);
  }

  @AfterEach
  void close() throws JournalException {
    outbox.close();
    journal.close();
  }

  private static String body(String id, int bytes) {
    String head = "{\"id\":\"" + id + "\",\"kind\":\"dose\",\"by\":\"";
    return head + "x".repeat(bytes - head.length() - 2) + "\"}";
  }

  private int fill() throws JournalException {
    int taken = 0;
    while (outbox.receive("o" + taken, AT, LATER, body("o" + taken, 4_000))
        == Outbox.Reception.NEW) {
      taken++;
    }
    return taken;
  }

  private void tick(List<String> ids) throws JournalException {
    journal.commit(
        new TickEntry(AT, "{}", SomeState.at(AT), Optional.empty(), List.of(), List.of(), ids));
  }

  @Test
  void itHoldsAQuarterOfAMegabyteAndAHoldStillFindsRoom() throws Exception {
    assertEquals(192 * 1024 / 4_000, fill());
    assertEquals(Outbox.Reception.NEW, outbox.receive("h", AT, LATER, body("h", 4_000), true));
    int stops = 1;
    while (outbox.receive("h" + stops, AT, LATER, body("h" + stops, 4_000), true)
        == Outbox.Reception.NEW) {
      stops++;
    }
    assertEquals(256 * 1024 / 4e3, 192 * 1024 / 4e3 + stops, 1);
  }

  @Test
  void whatATickTookLeavesItsNameOnly() throws Exception {
    fill();
    long before = Files.size(folder.resolve("journal.db-wal"));
    assertTrue(before > 0);
    String again = body("o0", 4_000);
    tick(List.of("o0"));
    assertEquals(Outbox.Reception.SAME_AGAIN, outbox.receive("o0", AT, LATER, again));
    assertEquals(Outbox.Reception.REPEATED, outbox.receive("o0", AT, LATER, body("o0", 200)));
    assertFalse(waitingIds().contains("o0"));
    try (Connection look = DriverManager.getConnection("jdbc:sqlite:" + journal.file());
        var rows =
            look.createStatement().executeQuery("SELECT length(body) FROM inbox WHERE id = 'o0'")) {
      assertTrue(rows.next() && rows.getInt(1) < 80);
    }
  }

  private List<String> waitingIds() throws JournalException {
    return journal.waitingOrders().stream().map(order -> order.get("id").asText()).toList();
  }

  /** As 500 orders of 60 kB left it: the next tick, and every start, ended for want of memory. */
  @Test
  void whatIsStaleOrTooLongGoesAtTheStartWithoutBeingRead() throws Exception {
    put("long", LATER, body("long", 60_000));
    put("stale", AT.minusSeconds(1), body("stale", 300));
    put("x".repeat(90), LATER, body("y", 60_000));
    put("good", LATER, body("good", 300));
    journal.refuseUnfitOrders(AT);
    assertEquals(List.of("good"), waitingIds());
    List<JsonNode> receipts =
        outbox.eventsAfter("", 0, 9).stream().map(event -> event.data()).toList();
    assertEquals(3, receipts.size());
    assertTrue(receipts.get(0).get("why").asText().contains("at most 4096 bytes"));
    assertTrue(receipts.get(1).get("why").asText().startsWith("stale"));
    assertFalse(receipts.get(2).has("id"), "an id that no host would take is not told");
  }

  private void put(String id, Instant expires, String body) throws Exception {
    try (Connection direct = DriverManager.getConnection("jdbc:sqlite:" + journal.file());
        PreparedStatement insert =
            direct.prepareStatement(
                "INSERT INTO inbox (id, received, expires, body) VALUES (?, ?, ?, ?)")) {
      insert.setString(1, id);
      insert.setString(2, AT.toString());
      insert.setString(3, expires.toString());
      insert.setString(4, body);
      insert.executeUpdate();
    }
  }

  @Test
  void oneThatWasDamagedOnTheDiskIsTakenByItsName() throws Exception {
    put("a", LATER, "{\"id\":\"a\",\"ki");
    put("b", LATER, body("c", 300));
    for (JsonNode order : journal.waitingOrders()) {
      assertEquals("damaged", order.get("kind").asText());
    }
    tick(waitingIds());
    assertEquals(List.of(), waitingIds());
  }

  @Test
  void ordersAreSetAsideInAFileAndEachIsTold() throws Exception {
    assertEquals(Optional.empty(), journal.setAside(AT), "none waits");
    put("a", LATER, body("a", 300));
    put("b", LATER, body("b", 300));
    Path file = journal.setAside(AT).orElseThrow();
    assertEquals(List.of(file), SetAside.beside(journal.file()));
    assertEquals(2, Files.readAllLines(file).size());
    assertEquals(List.of(), waitingIds());
    assertEquals(
        List.of("a", "b"),
        outbox.eventsAfter("", 0, 9).stream()
            .map(event -> event.data().get("id").asText())
            .toList());
  }

  @Test
  void threeStartsInVainOnTheSameOrderAreEnough() {
    Path file = journal.file();
    for (int start = 0; start < 3; start++) {
      FailedStarts starts = FailedStarts.begin(file);
      assertEquals(start, starts.before());
      assertFalse(starts.takesUp(Optional.of("o-1")), "start " + start);
    }
    FailedStarts fourth = FailedStarts.begin(file);
    assertEquals(3, fourth.before());
    assertTrue(fourth.takesUp(Optional.of("o-1")));
    FailedStarts fifth = FailedStarts.begin(file);
    assertEquals(4, fifth.before());
    assertFalse(fifth.takesUp(Optional.of("o-2")), "another input");
    fifth.succeeded();
    FailedStarts told = FailedStarts.begin(file);
    assertEquals(0, told.before());
    told.calledOff();
    assertEquals(0, FailedStarts.begin(file).before(), "it ended because it was told to");
  }
}
