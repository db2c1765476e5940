package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The page on what happens when a part fails is what the run makes; {@code -Dfailures.write=true}
 * writes it anew.
 */
class FaultTableTest {
  private static final Path PAGE = Path.of("../../hardware-notes/failures.md");

  @TempDir Path folder;

  @Test
  void thePageSaysWhatTheRunShows() throws Exception {
    String page = new FaultTable(folder).page();
    if (Boolean.getBoolean("failures.write")) {
      Files.writeString(PAGE, page);
    }
    assertEquals(Files.readString(PAGE), page);
  }
}
