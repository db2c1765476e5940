package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.SomeState;
import dev.cupwarden.core.messages.Advice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A byte of a journal that changed while nobody looked. Before there were checksums some of them
 * ended the program at each start, some were believed.
 */
class FlippedByteTest {
  private static final Instant AT = Instant.parse("2027-01-10T08:00:00Z");
  private static final int TICKS = 30;

  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void aJournal() throws JournalException {
    file = folder.resolve("journal.db");
    try (Journal journal = Journal.open(file)) {
      journal.start(new Journal.Start(AT, "bench: b", SomeState.at(AT), "test"));
      for (int i = 0; i < TICKS; i++) {
        journal.commit(tick(i));
      }
      assertTrue(journal.checkpoint());
    }
  }

  private static TickEntry tick(int number) {
    Instant at = AT.plusSeconds(300L * number);
    return new TickEntry(
        at,
        "{\"at\":\"x\"}",
        SomeState.at(at),
        Optional.empty(),
        List.of(new Advice.Pass("A1", 10, 0, 0, "due")),
        List.of(),
        List.of());
  }

  @Test
  void anyFlippedByteOfTheKeptStateMeansAStandIn() throws Exception {
    int flips = 0;
    for (String table : List.of("state", "cup")) {
      byte[] whole = body(table);
      for (int i = 0; i < whole.length; i += 1 + whole.length / 150) {
        byte[] flipped = whole.clone();
        flipped[i] ^= (byte) (1 << (i % 8));
        put(table, flipped);
        try (OpenJournal open = OpenJournal.orStandIn(file)) {
          assertTrue(open.trouble().isPresent(), table + " byte " + i);
          assertFalse(open.mayPass(), "a person must look");
        }
        flips++;
      }
      put(table, whole);
    }
    assertTrue(flips > 200, flips + " bytes were tried");
    try (OpenJournal open = OpenJournal.orStandIn(file)) {
      assertEquals(Optional.empty(), open.trouble(), "as it was");
    }
  }

  @Test
  void aFlippedTimeOrNumberOfTheLastTickIsFound() throws Exception {
    for (String change :
        List.of("at = '2027-01-10T08:00:01Z'", "at = 'x'", "tick = tick - 1", "crc = crc + 1")) {
      Path copy = Files.createDirectories(folder.resolve("copy")).resolve("journal.db");
      Files.deleteIfExists(copy);
      Files.copy(file, copy);
      execute(copy, "UPDATE state SET " + change);
      try (OpenJournal open = OpenJournal.orStandIn(copy)) {
        assertTrue(open.trouble().isPresent(), change);
      }
    }
  }

  @Test
  void aStateWrittenBeforeThereWereChecksumsIsRead() throws Exception {
    execute(file, "UPDATE state SET crc = NULL");
    execute(file, "UPDATE cup SET crc = NULL");
    try (OpenJournal open = OpenJournal.orStandIn(file)) {
      assertEquals(Optional.empty(), open.trouble());
      assertEquals(TICKS, open.journal().restored().orElseThrow().tick());
    }
  }

  @Test
  void afterACheckpointTheLogIsEmptyAndABitInItLosesNothing() throws Exception {
    Path log = Path.of(file + "-wal");
    try (Journal journal = Journal.open(file)) {
      journal.restored();
      for (int i = 0; i < 5; i++) {
        journal.commit(tick(TICKS + i));
      }
      assertTrue(Files.size(log) > 0);
      try (Outbox reads = Outbox.of(journal)) {
        assertTrue(reads.waitingOrders() == 0);
        assertTrue(journal.checkpoint());
      }
      assertEquals(0, Files.size(log));
    }
  }

  private byte[] body(String table) throws SQLException {
    try (Connection connection = connected(file);
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery("SELECT body FROM " + table)) {
      assertTrue(row.next());
      return row.getBytes(1);
    }
  }

  private void put(String table, byte[] body) throws SQLException {
    String first = "UPDATE " + table + " SET body = ? WHERE rowid = (SELECT min(rowid) FROM ";
    try (Connection connection = connected(file);
        PreparedStatement update = connection.prepareStatement(first + table + ")")) {
      update.setBytes(1, body);
      update.executeUpdate();
    }
  }

  private static void execute(Path file, String sql) throws SQLException {
    try (Connection connection = connected(file);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private static Connection connected(Path file) throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + file);
  }
}
