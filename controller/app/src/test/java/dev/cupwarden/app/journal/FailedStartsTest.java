package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.SmallFile;
import dev.cupwarden.core.messages.Json;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FailedStartsTest {
  private static final int STARTS = 300;

  @TempDir Path folder;

  /** A kill leaves what a reader beside it sees. */
  @Test
  void noKillAsItIsWrittenForgetsTheStartsBefore() throws Exception {
    Path journal = folder.resolve("journal.db");
    FailedStarts.begin(journal);
    CompletableFuture<Void> starting =
        CompletableFuture.runAsync(
            () -> {
              for (int start = 0; start < STARTS; start++) {
                FailedStarts.begin(journal).takesUp(Optional.of("an order"));
              }
            });
    int last = 1;
    while (!starting.isDone()) {
      int now =
          Json.MAPPER
              .readTree(SmallFile.text(folder.resolve("journal.db.starts")))
              .path("in_vain")
              .asInt();
      assertTrue(now >= last, now + " after " + last);
      last = now;
    }
    starting.join();
    assertEquals(STARTS + 1, FailedStarts.begin(journal).before());
  }
}
