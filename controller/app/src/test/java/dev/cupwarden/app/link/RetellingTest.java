package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Happening;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.messages.Kept;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RetellingTest {
  private static final Instant NOW = Instant.parse("2027-01-10T08:00:00Z");
  private static final long MINUTE = 60_000_000_000L;
  @TempDir Path folder;

  /** A day of a host that hears everything and keeps no more, for want of one event. */
  @Test
  void whileAGapStandsTheOutboxIsToldEverMoreRarely() throws Exception {
    List<Long> toldAtMinute = new ArrayList<>();
    try (Journal journal = Journal.open(folder.resolve("journal.db"));
        Outbox outbox = Outbox.of(journal)) {
      for (int event = 1; event <= 5; event++) {
        journal.note(Happening.change(NOW, "test", "no. " + event));
      }
      Kept standing = new Kept(outbox.eventsAfter("", 0, 1).get(0).epoch(), 2);
      Retelling retelling = new Retelling();
      assertEquals(Outbox.Mark.MOVED, outbox.kept(standing));
      retelling.keptMoved(0);
      for (long minute = 1; minute <= 24 * 60; minute++) {
        long now = minute * MINUTE;
        if (outbox.kept(standing) == Outbox.Mark.MOVED) {
          retelling.keptMoved(now);
        }
        if (retelling.isDue(now)) {
          toldAtMinute.add(minute);
          retelling.again(now);
        }
      }
      assertEquals(List.of(1L, 3L, 7L, 15L, 31L, 63L, 123L, 183L), toldAtMinute.subList(0, 8));
      assertEquals(Retelling.RAREST, retelling.interval());
      assertEquals(
          Outbox.Mark.MOVED, outbox.kept(new Kept(standing.epoch(), 5)), "the gap is mended");
    }
  }

  @Test
  void aMarkThatMovesMakesTheNextTellingSoonAgain() {
    Retelling retelling = new Retelling();
    retelling.toldAll(0);
    retelling.again(MINUTE);
    retelling.again(3 * MINUTE);
    assertFalse(retelling.isDue(6 * MINUTE));
    retelling.keptMoved(6 * MINUTE);
    assertEquals(Retelling.FIRST, retelling.interval());
    assertTrue(retelling.isDue(7 * MINUTE));
  }
}
