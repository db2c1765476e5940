package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.GrantedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.VirtualTime;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The leak sensor is looked at each second while the pump runs and for ten minutes after. */
class LeakLineTest {
  private static final int LEAK = 26;

  private SimulatedBench world;
  private Context pi4j;
  private BenchBoard board;
  private Bench bench;
  private double mlPerS;

  @BeforeEach
  void open() throws Exception {
    try (InputStream in = getClass().getResourceAsStream("every-part.yaml")) {
      bench =
          BenchFile.read("every-part.yaml", new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
    mlPerS = bench.board().orElseThrow().pump().mlPerS();
    world = SimulatedBench.of(bench, 11, TestBench.START);
    pi4j = world.newContext();
    board = BenchBoard.open(pi4j, bench, TestBench.pace(world.time()), world::oneWire);
    // What may have run before this start is watched for ten minutes, too.
    world.time().advanceBy(Duration.ofMinutes(20));
    board.read();
  }

  @AfterEach
  void close() {
    board.close();
    pi4j.shutdown();
  }

  /** That much later, once. */
  private void after(Duration time, Runnable work) {
    var handle = new VirtualTime.Handle[1];
    handle[0] =
        world
            .time()
            .every(
                time,
                () -> {
                  handle[0].close();
                  work.run();
                });
  }

  private DoseOutcome.Failed cutAfter(Duration time, Runnable work) {
    after(time, work);
    DoseOutcome outcome = board.give(GrantedPass.of("A1", 15, 0));
    assertEquals(0, world.linesOn());
    return assertInstanceOf(DoseOutcome.Failed.class, outcome);
  }

  @Test
  void waterEndsAPassWithinASecondAndIsToldThoughItHasRunOn() {
    DoseOutcome.Failed cut =
        cutAfter(Duration.ofMillis(3_300), () -> world.faults().wet(LEAK, true));
    assertEquals("Water where none belongs: the leak sensor is wet.", cut.reason());
    assertTrue(cut.plainMl() >= 3.3 * mlPerS && cut.plainMl() <= 4.6 * mlPerS, cut.toString());
    world.faults().wet(LEAK, false);
    assertTrue(board.read().leak(), "the puddle has run on; it was there");
    assertFalse(board.read().leak(), "told once");
  }

  @Test
  void wetnessOfFiveSecondsIsSeenNineMinutesAfterAPassAndNotHalfAnHourAfter() {
    assertInstanceOf(DoseOutcome.Given.class, board.give(GrantedPass.of("A1", 15, 0)));
    world.time().advanceBy(Duration.ofMinutes(9));
    assertFalse(board.read().leak());
    wetFor(Duration.ofSeconds(5));
    assertTrue(board.read().leak());
    world.time().advanceBy(Duration.ofMinutes(30));
    wetFor(Duration.ofSeconds(5));
    assertFalse(board.read().leak(), "at rest only each scan looks");
  }

  private void wetFor(Duration time) {
    world.faults().wet(LEAK, true);
    world.time().advanceBy(time);
    world.faults().wet(LEAK, false);
  }

  @Test
  void aProgramThatStartsWatchesWhatTheLastOneMayHavePumped() throws Exception {
    board.close();
    pi4j.shutdown();
    pi4j = world.newContext();
    board = BenchBoard.open(pi4j, bench, TestBench.pace(world.time()), world::oneWire);
    world.time().advanceBy(Duration.ofMinutes(1));
    wetFor(Duration.ofSeconds(5));
    assertTrue(board.read().leak());
  }

  @Test
  void overAWetSensorNoPassBegins() {
    world.faults().wet(LEAK, true);
    DoseOutcome.Failed refused =
        assertInstanceOf(DoseOutcome.Failed.class, board.give(GrantedPass.of("A1", 15, 0)));
    assertEquals(0, refused.plainMl());
    assertTrue(refused.reason().contains("wet"), refused.reason());
  }

  @Test
  void aLineThatCannotBeReadIsNotADryOne() {
    DoseOutcome.Failed cut =
        cutAfter(Duration.ofMillis(3_300), () -> world.faults().loseLine(LEAK, true));
    assertTrue(cut.reason().startsWith("The leak sensor cannot be read"), cut.reason());
    assertTrue(cut.plainMl() <= 4.6 * mlPerS, cut.toString());
    world.faults().loseLine(LEAK, false);
    BoardReadings seen = board.read();
    assertFalse(seen.leak());
    assertTrue(
        seen.faults().get("leak").startsWith("Leak sensor: "), () -> seen.faults().toString());
    assertFalse(board.read().faults().containsKey("leak"));

    world.faults().loseLine(LEAK, true);
    DoseOutcome refused = board.give(GrantedPass.of("A1", 15, 0));
    assertEquals(0, assertInstanceOf(DoseOutcome.Failed.class, refused).plainMl());
    assertTrue(board.read().faults().containsKey("leak"));
  }
}
