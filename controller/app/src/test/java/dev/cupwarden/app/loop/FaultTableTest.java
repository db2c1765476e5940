package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The page on what happens when a part fails is what the run makes; {@code -Dfailures.write=true}
 * writes it anew. Each fault stays within its {@link FaultBounds}.
 */
class FaultTableTest {
  private static final Path PAGE = Path.of("../../hardware-notes/failures.md");

  @TempDir Path folder;

  @Test
  void thePageSaysWhatTheRunShows() throws Exception {
    FaultTable.Run run = new FaultTable(folder).run();
    if (Boolean.getBoolean("failures.write")) {
      Files.writeString(PAGE, run.page());
    }
    assertEquals(List.of(), run.beyondBounds());
    assertEquals(Files.readString(PAGE), run.page());
  }
}
