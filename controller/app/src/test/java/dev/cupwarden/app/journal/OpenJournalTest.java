package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.ControllerCommand;
import dev.cupwarden.app.SomeState;
import dev.cupwarden.core.messages.Advice;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A journal whose files were cut short anywhere is whole, or nothing is watered on it. */
class OpenJournalTest {
  private static final int TICKS = 40;
  private static final int CUTS = 120;

  @TempDir Path folder;
  private Path disk;

  @BeforeEach
  void journalAsAPowerCutLeavesIt() throws Exception {
    disk = Files.createDirectories(folder.resolve("disk"));
    Path file = folder.resolve("journal.db");
    Instant at = Instant.parse("2027-01-10T08:00:00Z");
    try (Journal journal = Journal.open(file)) {
      journal.start(new Journal.Start(at, "bench: b", SomeState.at(at), "test"));
      for (int i = 0; i < TICKS; i++) {
        Advice.Pass pass = new Advice.Pass("A1", 10, 0, 0, "due");
        journal.commit(
            new TickEntry(
                at.plusSeconds(300L * i),
                "{\"at\":\"x\"}",
                SomeState.at(at.plusSeconds(300L * i)),
                Optional.empty(),
                List.of(pass),
                List.of(),
                List.of()));
      }
      for (String end : List.of("", "-wal", ".tick")) {
        Files.copy(folder.resolve("journal.db" + end), disk.resolve("journal.db" + end));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "-wal", ".tick"})
  void aFileCutShortAtAnyByteIsFoundOrIsNoLoss(String end) throws Exception {
    byte[] whole = Files.readAllBytes(disk.resolve("journal.db" + end));
    int found = 0;
    for (int i = 0; i <= CUTS; i++) {
      int length = (int) ((long) whole.length * i / CUTS);
      Path copy = Files.createDirectories(folder.resolve("cut" + end + i));
      for (String other : List.of("", "-wal", ".tick")) {
        Files.copy(disk.resolve("journal.db" + other), copy.resolve("journal.db" + other));
      }
      Files.write(copy.resolve("journal.db" + end), Arrays.copyOf(whole, length));
      try (OpenJournal open = OpenJournal.orStandIn(copy.resolve("journal.db"))) {
        if (open.trouble().isEmpty()) {
          assertEquals(TICKS, open.journal().restored().orElseThrow().tick(), "cut at " + length);
        } else {
          found++;
        }
      }
    }
    assertTrue(found > 0 || end.equals(".tick"), end + ": none was found");
  }

  @Test
  void aJournalThatIsGoneIsNotANewBench() throws Exception {
    Files.delete(disk.resolve("journal.db"));
    Files.delete(disk.resolve("journal.db-wal"));
    try (OpenJournal open = OpenJournal.orStandIn(disk.resolve("journal.db"))) {
      assertTrue(open.trouble().orElseThrow().contains("delete"), open.trouble()::toString);
    }
    Files.delete(disk.resolve("journal.db.tick"));
    try (OpenJournal open = OpenJournal.orStandIn(disk.resolve("journal.db"))) {
      assertEquals(Optional.empty(), open.trouble(), "a person has said that it is one");
    }
  }

  @Test
  void aBackupIsWholeWhileTheControllerRuns() throws Exception {
    Path copy = folder.resolve("copy.db");
    try (Journal running = Journal.open(disk.resolve("journal.db"))) {
      assertEquals(TICKS, running.restored().orElseThrow().tick());
      assertEquals(
          0,
          ControllerCommand.commandLine()
              .execute("journal", "backup", disk.resolve("journal.db").toString(), "" + copy));
    }
    try (JournalExport export = JournalExport.open(copy)) {
      assertEquals(TICKS, export.passes().size());
    }
  }
}
