package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.SomeState;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A journal is one process's, and nobody else's to read. */
class OneProcessTest {
  private static final Instant AT = Instant.parse("2027-01-10T08:00:00Z");

  @TempDir Path folder;

  private Path file() {
    return folder.resolve("state").resolve("journal.db");
  }

  @Test
  void aSecondOneIsToldWhichFileIsHeld() throws Exception {
    try (JournalLock held = JournalLock.take(file())) {
      JournalException refused =
          assertThrows(JournalException.class, () -> JournalLock.take(file()));
      assertEquals(JournalException.Trouble.IN_USE, refused.trouble());
      assertTrue(refused.getMessage().contains("journal.db.lock"), refused.getMessage());
    }
    JournalLock.take(file()).close();
  }

  @Test
  void allItsFilesAreItsOwnersOnly() throws Exception {
    Files.createDirectories(file().getParent());
    Files.createFile(file());
    Files.setPosixFilePermissions(file(), PosixFilePermissions.fromString("rw-rw-r--"));
    try (JournalLock lock = JournalLock.take(file());
        Journal journal = Journal.open(file())) {
      journal.start(new Journal.Start(AT, "bench: b", SomeState.at(AT), "test"));
      journal.commit(
          new TickEntry(
              AT, "{}", SomeState.at(AT), Optional.empty(), List.of(), List.of(), List.of()));
      try (JournalExport export = JournalExport.open(file())) {
        export.backup(folder.resolve("state").resolve("copy.db"));
      }
      try (var all = Files.list(file().getParent())) {
        List<Path> files = all.toList();
        assertEquals(6, files.size(), files.toString());
        for (Path each : files) {
          assertEquals(
              "rw-------",
              PosixFilePermissions.toString(Files.getPosixFilePermissions(each)),
              each.toString());
        }
      }
    }
  }

  @Test
  void whatAKilledRunLeftGoesAtTheNextStart() throws Exception {
    Path left = Files.createTempDirectory("cupwarden-stand-in");
    JournalLock.take(left.resolve("journal.db")).close();
    Files.createFile(left.resolve("journal.db"));
    Path older = Files.createTempDirectory("cupwarden-stand-in");
    Files.setLastModifiedTime(older, FileTime.from(Instant.now().minusSeconds(2 * 3600)));
    StandInFolder held = StandInFolder.make();
    try (OpenJournal open = OpenJournal.orStandIn(file())) {
      assertEquals(Optional.empty(), open.trouble());
      assertFalse(Files.exists(left), "left by a killed run");
      assertFalse(Files.exists(older), "left by a program that made no lock");
      assertTrue(Files.exists(held.journal().getParent()), "of a run that lasts");
    }
    held.close();
    assertFalse(Files.exists(held.journal().getParent()));
  }
}
