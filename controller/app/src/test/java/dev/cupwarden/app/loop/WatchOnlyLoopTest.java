package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.board.DoseOutcome;
import dev.cupwarden.core.limits.AllowedPass;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** A bench that is only watched: its outputs stay off, whoever starts the program again and how. */
class WatchOnlyLoopTest extends LoopOnABench {
  private final AtomicInteger switched = new AtomicInteger();

  private void startedAgain(RunMode next) throws Exception {
    journal.close();
    journal = Journal.open(journal.file());
    mode = next;
  }

  private void noOutputMoves() {
    world.onSwitch(
        () -> {
          if (world.linesOn() > 0) {
            switched.incrementAndGet();
          }
        });
  }

  @Test
  void dryCupsInTheWindowAreToldOfAndGetNothing() throws Exception {
    mode = RunMode.WATCH;
    noOutputMoves();
    double beforeMl = world.tankMl().get("plain");
    ticks(loop(), 48);
    assertFalse(last().step().brief().passes().isEmpty(), "told");
    assertEquals(List.of(), last().doses());
    assertEquals(List.of(), passes(), "nobody intends to give what is only told");
    assertEquals(0, switched.get());
    assertEquals(beforeMl, world.tankMl().get("plain"), 0.0);
    assertTrue(last().step().state().alerts().containsKey("watch-only"));
  }

  @Test
  void aStartThatDoesNotSpeakOfItGoesOnWatching() throws Exception {
    mode = RunMode.WATCH;
    loop(); // Came to no tick.
    startedAgain(RunMode.AS_LEFT);
    noOutputMoves();
    assertTrue(loop().watchOnly());
    startedAgain(RunMode.AS_LEFT);
    ticks(loop(), 48);
    assertEquals(0, switched.get());
    assertEquals(List.of(), passes());
  }

  @Test
  void onlyAPersonsWordEndsTheWatch() throws Exception {
    mode = RunMode.WATCH;
    ticks(loop(), 30);
    startedAgain(RunMode.WATER);
    ticks(loop(), 12);
    assertFalse(passes().isEmpty());
    startedAgain(RunMode.AS_LEFT);
    assertFalse(loop().watchOnly());
  }

  @Test
  void aPassThatReachedItsBenchAllTheSameIsNotGiven() throws Exception {
    AtomicInteger given = new AtomicInteger();
    BenchHardware counting =
        new BenchHardware.OnBoard(board) {
          @Override
          public DoseOutcome give(AllowedPass pass) {
            given.incrementAndGet();
            return super.give(pass);
          }
        };
    ticks(loop(counting), 30);
    int before = given.get();
    AllowedPass pass =
        reports.stream()
            .flatMap(report -> report.step().passes().stream())
            .findFirst()
            .orElseThrow();
    assertTrue(new WatchedHardware(counting).give(pass) instanceof DoseOutcome.Failed);
    assertEquals(before, given.get());
  }
}
