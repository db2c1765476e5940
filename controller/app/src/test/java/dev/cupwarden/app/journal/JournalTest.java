package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.SomeState;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Kept;
import dev.cupwarden.core.messages.Receipt;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JournalTest {
  private static final Instant START = Instant.parse("2027-01-10T08:00:00Z");
  private static final Advice.Pass A1 = new Advice.Pass("A1", 15, 5, 0.125, "due");

  @TempDir Path folder;

  private Path file() {
    return folder.resolve("journal.db");
  }

  private static TickEntry tick(Instant at, List<Advice.Pass> passes, JournalEvent... events) {
    return new TickEntry(
        at,
        "{\"at\":\"" + at + "\"}",
        SomeState.at(at),
        Optional.of("[]"),
        passes,
        List.of(events),
        List.of());
  }

  private static Journal.Start start(Instant at) {
    return new Journal.Start(at, "bench: back-room", SomeState.at(at), "test");
  }

  /**
   * A program that died at each start had filled the disk with them, 300 kB each of a large bench.
   */
  @Test
  void startThatCameToNoTickGivesItsPlaceToTheNext() throws Exception {
    try (Journal journal = Journal.open(file())) {
      for (int i = 0; i < 5; i++) {
        journal.start(start(START.plusSeconds(i)));
      }
      journal.commit(tick(START.plusSeconds(9), List.of()));
      journal.start(start(START.plusSeconds(20)));
    }
    try (JournalExport export = JournalExport.open(file())) {
      assertEquals(
          List.of("2027-01-10T08:00:04Z", "2027-01-10T08:00:20Z"),
          export.starts().stream().map(JournalExport.StartEntry::at).toList());
    }
  }

  private static Dose given(Advice.Pass pass) {
    return new Dose(
        pass.cup(), pass.plainMl(), pass.feedMl(), pass.strength(), pass.why(), "given");
  }

  /** As a power cut leaves it: the files as they are at this moment, the process gone. */
  private Path afterPowerCut() throws IOException {
    Path copy = folder.resolve("after.db");
    for (String end : List.of("", "-wal")) {
      Path from = folder.resolve("journal.db" + end);
      if (Files.exists(from)) {
        Files.copy(from, folder.resolve("after.db" + end));
      }
    }
    return copy;
  }

  @Test
  void journalIsReadBackWhileTheControllerWrites() throws Exception {
    try (Journal journal = Journal.open(file())) {
      journal.commit(tick(START, List.of(A1)));
      try (Connection writer = DriverManager.getConnection("jdbc:sqlite:" + file());
          Statement statement = writer.createStatement()) {
        statement.execute("BEGIN IMMEDIATE");
        try (JournalExport export = JournalExport.open(file())) {
          assertEquals(1, export.passes().size());
          assertEquals(SomeState.at(START), export.state().orElseThrow());
        }
        statement.execute("ROLLBACK");
      }
    }
  }

  @Test
  void whatIsCommittedIsThereAfterAPowerCut() throws Exception {
    try (Journal journal = Journal.open(file())) {
      journal.start(start(START));
      journal.commit(tick(START, List.of()));
      journal.commit(tick(START.plusSeconds(300), List.of()));
      try (Journal after = Journal.open(afterPowerCut())) {
        Journal.Restored restored = after.restored().orElseThrow();
        assertEquals(2, restored.tick());
        assertEquals(START.plusSeconds(300), restored.at());
        assertEquals(SomeState.at(START.plusSeconds(300)), restored.state());
      }
    }
  }

  @Test
  void aLoopThatIsToldToStopWithinATickFinishesIt() throws Exception {
    try (Journal journal = Journal.open(file())) {
      journal.start(start(START));
      Thread.currentThread().interrupt();
      List<Journal.Intent> intents = journal.commit(tick(START, List.of(A1)));
      assertTrue(Thread.interrupted());
      assertEquals(A1, intents.get(0).pass());
    }
  }

  @Test
  void intentWithoutOutcomeIsUnknownAtTheNextStartAndToldOnce() throws Exception {
    Path cut;
    try (Journal journal = Journal.open(file())) {
      journal.start(start(START));
      List<Journal.Intent> intents = journal.commit(tick(START, List.of(A1)));
      assertEquals(A1, intents.get(0).pass());
      cut = afterPowerCut();
    }
    try (Journal after = Journal.open(cut);
        Outbox outbox = Outbox.of(after)) {
      assertEquals(
          List.of(A1),
          after.start(start(START.plusSeconds(60))).stream().map(Journal.Intent::pass).toList());
      assertEquals(List.of(), after.start(start(START.plusSeconds(120))));
      List<Event> told = outbox.eventsAfter("", 0, 10);
      assertEquals(1, told.size());
      assertEquals("dose", told.get(0).kind());
      assertEquals("A1", told.get(0).cup());
      assertEquals("unknown", told.get(0).data().get("outcome").textValue());
      assertEquals(15, told.get(0).data().get("plain_ml").doubleValue());
    }
  }

  @Test
  void outcomeClosesItsIntentOnce() throws Exception {
    try (Journal journal = Journal.open(file());
        Outbox outbox = Outbox.of(journal)) {
      Journal.Intent intent = journal.commit(tick(START, List.of(A1))).get(0);
      journal.outcome(intent, START.plusSeconds(20), given(A1), null);
      journal.outcome(intent, START.plusSeconds(21), given(A1), null);
      assertEquals(1, outbox.eventsAfter("", 0, 10).size());
      assertEquals(List.of(), journal.start(start(START.plusSeconds(60))));
    }
  }

  @Test
  void eventsStayUntilAHostHasKeptThem() throws Exception {
    try (Journal journal = Journal.open(file());
        Outbox outbox = Outbox.of(journal)) {
      for (int i = 0; i < 5; i++) {
        journal.note(JournalEvent.change(START, "test", "no. " + i));
      }
      List<Event> all = outbox.eventsAfter("", 0, 10);
      assertEquals(List.of(1L, 2L, 3L, 4L, 5L), all.stream().map(Event::seq).toList());
      String epoch = all.get(0).epoch();
      assertEquals(Outbox.Mark.STANDS, outbox.kept(new Kept("another", 5)));
      assertEquals(5, outbox.eventsAfter(epoch, 0, 10).size());
      assertEquals(Outbox.Mark.MOVED, outbox.kept(new Kept(epoch, 3)));
      assertEquals(Outbox.Mark.STANDS, outbox.kept(new Kept(epoch, 3)));
      assertEquals(
          List.of(4L, 5L), outbox.eventsAfter(epoch, 0, 10).stream().map(Event::seq).toList());
      assertEquals(List.of(5L), outbox.eventsAfter(epoch, 4, 10).stream().map(Event::seq).toList());
    }
  }

  @Test
  void journalPutBackFromACopyBeginsANewEpochInsteadOfGivingNumbersTwice() throws Exception {
    try (Journal journal = Journal.open(file());
        Outbox outbox = Outbox.of(journal)) {
      journal.note(JournalEvent.change(START, "test", "one"));
      journal.note(JournalEvent.change(START, "test", "two"));
      String epoch = outbox.eventsAfter("", 0, 1).get(0).epoch();
      outbox.kept(new Kept(epoch, 1));
      assertEquals(Outbox.Mark.NEW_EPOCH, outbox.kept(new Kept(epoch, 40)));
      List<Event> waiting = outbox.eventsAfter(epoch, 40, 10);
      assertEquals(1, waiting.size());
      assertEquals(1, waiting.get(0).seq());
      assertTrue(!waiting.get(0).epoch().equals(epoch));
      assertEquals("two", waiting.get(0).data().get("detail").textValue());
    }
  }

  @Test
  void orderIsTakenByOneTickAndItsIdRemembered() throws Exception {
    try (Journal journal = Journal.open(file());
        Outbox outbox = Outbox.of(journal)) {
      String body = "{\"id\":\"o-1\",\"kind\":\"release\"}";
      Instant expires = START.plusSeconds(600);
      assertEquals(Outbox.Reception.NEW, outbox.receive("o-1", START, expires, body));
      assertEquals(Outbox.Reception.SAME_AGAIN, outbox.receive("o-1", START, expires, body));
      assertEquals(body, journal.waitingOrders().get(0).toString());
      journal.commit(
          new TickEntry(
              START,
              "{}",
              SomeState.at(START),
              Optional.empty(),
              List.of(),
              List.of(),
              List.of("o-1")));
      assertEquals(List.of(), journal.waitingOrders());
      assertEquals(
          Outbox.Reception.REPEATED,
          outbox.receive("o-1", START, expires, "{\"id\":\"o-1\",\"kind\":\"hold\"}"));
    }
  }

  @Test
  void growthIsBoundedAndReplayStillBeginsAtAStart() throws Exception {
    JournalRetention little = new JournalRetention(Duration.ofDays(2), Duration.ofDays(4), 30, 10);
    try (Journal journal = Journal.open(file());
        Outbox outbox = Outbox.of(journal)) {
      journal.start(start(START));
      for (int day = 0; day < 8; day++) {
        for (int hour = 0; hour < 24; hour++) {
          Instant at = START.plus(Duration.ofHours(24L * day + hour));
          AlertNotice alert = new AlertNotice("cold", null, "raised", at, 9, 12, "Warm it.");
          JournalEvent told =
              hour == 0
                  ? JournalEvent.of(at, alert)
                  : JournalEvent.of(at, Receipt.done("o-" + day + "-" + hour));
          List<Advice.Pass> passes = hour == 5 ? List.of(A1) : List.of();
          for (Journal.Intent intent : journal.commit(tick(at, passes, told))) {
            journal.outcome(intent, at.plusSeconds(20), given(A1), null);
          }
        }
        journal.endDay(start(START.plus(Duration.ofDays(day + 1))), little);
      }
      assertTrue(outbox.packsAfter(0, 1000).size() <= 30);
      List<Event> told = outbox.eventsAfter("", 0, 1000);
      assertEquals(10, told.size());
      assertTrue(
          told.stream().allMatch(event -> List.of("dose", "alert").contains(event.kind())),
          "doses and alerts go last");
      assertEquals(1, told.get(0).seq());
    }
    try (JournalExport export = JournalExport.open(file())) {
      StringBuilder lines = new StringBuilder();
      export.lines(0, lines);
      assertEquals(48, lines.toString().lines().count());
      assertTrue(
          lines.toString().startsWith("{\"at\":\"2027-01-16T08:00:00Z\"}"), lines.toString());
      assertEquals(145, export.starts().get(0).firstTick());
      assertEquals(4, export.passes().size());
    }
  }

  @Test
  void newerJournalIsRefusedWithASentence() throws Exception {
    Journal.open(file()).close();
    execute("PRAGMA user_version = 99");
    JournalException refused = assertThrows(JournalException.class, () -> Journal.open(file()));
    assertEquals(JournalException.Trouble.FOREIGN, refused.trouble());
    assertTrue(refused.getMessage().contains("newer program (schema 99"), refused.getMessage());
  }

  @Test
  void databaseOfAnotherProgramIsRefusedAndLeftAlone() throws Exception {
    execute("CREATE TABLE plants (name TEXT)");
    byte[] before = Files.readAllBytes(file());
    JournalException refused = assertThrows(JournalException.class, () -> Journal.open(file()));
    assertEquals(JournalException.Trouble.FOREIGN, refused.trouble());
    // Opening may switch the file's journal mode in its header (bytes 18, 19, change counters).
    byte[] after = Files.readAllBytes(file());
    assertEquals(before.length, after.length);
  }

  @Test
  void damagedJournalIsFoundAtTheStart() throws Exception {
    try (Journal journal = Journal.open(file())) {
      for (int i = 0; i < 200; i++) {
        journal.commit(tick(START.plusSeconds(i), List.of()));
      }
    }
    byte[] bytes = Files.readAllBytes(file());
    for (int i = 4096; i < bytes.length; i += 97) {
      bytes[i] ^= 0x5A;
    }
    Files.write(file(), bytes);
    JournalException refused = assertThrows(JournalException.class, () -> Journal.open(file()));
    assertEquals(JournalException.Trouble.CORRUPT, refused.trouble());
  }

  @Test
  void textFileIsNoJournal() throws Exception {
    Files.writeString(file(), "bench: back-room\n".repeat(500));
    assertEquals(
        JournalException.Trouble.CORRUPT,
        assertThrows(JournalException.class, () -> Journal.open(file())).trouble());
  }

  @Test
  void fullDiskLosesTheTickAndNothingElse() throws Exception {
    try (Journal journal = Journal.open(file())) {
      journal.start(start(START));
      journal.commit(tick(START, List.of()));
      journal.limitPages(40);
      JournalException full =
          assertThrows(
              JournalException.class,
              () -> {
                for (int i = 1; i < 100_000; i++) {
                  journal.commit(tick(START.plusSeconds(i), List.of(A1)));
                }
              });
      assertEquals(JournalException.Trouble.FULL, full.trouble());
      assertTrue(full.getMessage().contains("the disk is full"), full.getMessage());
      long ticks = journal.restored().orElseThrow().tick();
      assertTrue(ticks > 1);
      try (JournalExport export = JournalExport.open(file())) {
        assertEquals(ticks - 1, export.passes().size(), "one intent for each committed tick");
      }
    }
  }

  private void execute(String sql) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
