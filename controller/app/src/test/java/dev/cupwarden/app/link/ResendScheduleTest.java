package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.app.journal.Outbox;
import dev.cupwarden.core.messages.Kept;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ResendScheduleTest {
  private static final Instant NOW = Instant.parse("2027-01-10T08:00:00Z");
  private static final long SLICE = 20_000_000_000L;
  @TempDir Path folder;

  /** A day of a host that hears everything and keeps no more, for want of one event. */
  @Test
  void whileAGapStandsTheOutboxIsToldEverMoreRarely() throws Exception {
    List<Long> toldAtSlice = new ArrayList<>();
    try (Journal journal = Journal.open(folder.resolve("journal.db"));
        Outbox outbox = Outbox.of(journal)) {
      for (int event = 1; event <= 5; event++) {
        journal.note(JournalEvent.change(NOW, "test", "no. " + event));
      }
      Kept standing = new Kept(outbox.eventsAfter("", 0, 1).get(0).epoch(), 2);
      ResendSchedule resend = new ResendSchedule();
      assertEquals(Outbox.Mark.MOVED, outbox.kept(standing));
      resend.keptMoved(0);
      for (long slice = 1; slice <= 24 * 180; slice++) {
        long now = slice * SLICE;
        if (outbox.kept(standing) == Outbox.Mark.MOVED) {
          resend.keptMoved(now);
        }
        if (resend.isDue(now)) {
          toldAtSlice.add(slice);
          resend.again(now);
        }
      }
      assertEquals(
          List.of(1L, 3L, 7L, 15L, 31L, 63L, 127L, 255L, 435L, 615L), toldAtSlice.subList(0, 10));
      assertEquals(ResendSchedule.RAREST, resend.interval());
      assertEquals(
          Outbox.Mark.MOVED, outbox.kept(new Kept(standing.epoch(), 5)), "the gap is mended");
    }
  }

  @Test
  void aMarkThatMovesMakesTheNextTellingSoonAgain() {
    ResendSchedule resend = new ResendSchedule();
    resend.toldAll(0);
    resend.again(SLICE);
    resend.again(3 * SLICE);
    assertFalse(resend.isDue(6 * SLICE));
    resend.keptMoved(6 * SLICE);
    assertEquals(ResendSchedule.FIRST, resend.interval());
    assertTrue(resend.isDue(7 * SLICE));
  }
}
