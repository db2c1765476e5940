package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What a tick came to cannot be told, by a defect of whoever listens. */
class LoopListenerTest extends LoopOnABench {
  @Test
  void waterIsGivenAndOrdersAreTakenThoughNobodyCanBeTold() throws Exception {
    world.time().advanceBy(Duration.ofHours(3)); // The window is open and cups are dry.
    BenchLoop.Parts told = parts(BenchHardware.of(board), Optional.empty());
    BenchLoop loop =
        BenchLoop.resume(
            new BenchLoop.Parts(
                told.bench(),
                told.benchText(),
                told.hardware(),
                told.journal(),
                told.time(),
                report -> {
                  reports.add(report);
                  throw new IllegalStateException("deaf");
                },
                "test",
                told.trouble(),
                told.mode()));
    ticks(loop, 1); // Would throw, if the tick had failed by it.
    assertFalse(passes().isEmpty());
    assertEquals("given", passes().get(0).outcome());
    Instant until = time.wall().plus(Duration.ofDays(3));
    orderedNow("hold", ", \"until\": \"" + until + "\"");
    ticks(loop, 1);
    assertEquals("done", outcomeOf("hold"));
  }
}
