package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.CommandRun;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A week of a watch beside four habits of a can: A2 each evening a little, C1 on the evening of the
 * day on which it is asked for, C4 on the second evening, A3 never.
 */
class WatchedWeekTest extends LoopOnABench {
  private static final double EACH_EVENING_ML = 12;
  private static final double C1_ML = 120;
  private static final double C4_ML = 95;

  private final CommandRun command = CommandRun.apart();

  private int watched(String... more) {
    return command.execute(List.of("journal", "watched", journal.file().toString()), more);
  }

  private void told(String sentence) {
    assertTrue(command.out.toString().contains(sentence), command.out::toString);
  }

  private void aWeek() throws Exception {
    mode = RunMode.WATCH;
    BenchLoop loop = loop();
    for (int evening = 1; evening <= 7; evening++) {
      ticks(loop, 144);
      assertTrue(time.wall().atZone(ZoneOffset.UTC).getHour() >= 18, "twelve hours of ticks");
      world.person().water("A2", EACH_EVENING_ML, 0);
      if (evening == 1) {
        world.person().water("C1", C1_ML, 0);
      } else if (evening == 2) {
        world.person().water("C4", C4_ML, 0);
      }
      ticks(loop, 144);
    }
  }

  @Test
  void eachHabitIsToldBesideWhatTheProgramWouldHaveDone() throws Exception {
    aWeek();
    assertEquals(List.of(), passes());
    assertEquals(0, watched("--all"), command.err::toString);
    told("C1 vine, circling\n  2027-01-10T08:00:00Z: would have had 12");
    told("mL at strength 0.33 (due, depletion 0.45)");
    told("7.0 days: 1 within half a day of each other");
    told("7.0 days: 7 by hand before it was due; would have had 0 mL, had 8");
    told("mL by hand; not due at depletion 0.3");
    told("mL by hand 34.");
    told("7.0 days: 1 later by hand; would have had 11");
    told("not watered since, depletion 0.8");
    told("7.0 days: 1 not given; would have had 7");
    told("B1 mulberry, struck\n  7.0 days: not due, and not watered by hand");
  }

  @Test
  void whatTheJournalCannotAnswerIsASentence() throws Exception {
    ticks(loop(), 1);
    assertEquals(1, watched());
    assertEquals(
        "journal: it was not run with --watch in the time that it keeps\n", command.err.toString());
    mode = RunMode.WATCH;
    ticks(loop(), 1);
    assertEquals(1, watched("--cup", "Z9"));
    assertTrue(command.err.toString().contains("watched no cup Z9; it has A1, A2"));
  }
}
