package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.GrantedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.junit.jupiter.api.Test;

/**
 * The process stops at each moment of a pass in turn, on hardware as the notes have it: 1.5 mL/s, a
 * pump-run timer of 2 s, normally closed valves. No more than 5 mL flow beyond the order.
 */
class WorstMomentTest {
  private static final double ORDER_ML = 15;
  private static final double MOST_ML = 5;

  /** So many pumps, each with its own bias and dribble. */
  private static final int PUMPS = 6;

  private static final Duration STEP = Duration.ofMillis(100);
  private static final Duration PASS = Duration.ofSeconds(12);
  private static final Duration LONG_AFTER = Duration.ofMinutes(10);

  /** Nothing of the program runs on. */
  private static final class Killed extends Error {
    private static final long serialVersionUID = 1L;

    Killed() {
      super("killed", null, false, false);
    }
  }

  /** What stops the process. */
  private interface Stop {
    void at(SimulatedBench world);
  }

  @Test
  void killedWithItsLinesHighThePumpRunTimerEndsIt() throws Exception {
    double worstMl =
        worstMl(
            world -> {
              world.killProgram();
              throw new Killed();
            });
    assertTrue(worstMl > 2, "the timer's 2 s were really waited for: " + worstMl);
    assertTrue(worstMl <= MOST_ML, worstMl + " mL beyond the order");
  }

  @Test
  void hungTheDeadManEndsIt() throws Exception {
    double worstMl = worstMl(world -> world.time().advanceBy(LONG_AFTER));
    assertTrue(worstMl > 2, "the hang was really waited for: " + worstMl);
    assertTrue(worstMl <= MOST_ML, worstMl + " mL beyond the order");
  }

  @Test
  void powerCutEndsItAtOnce() throws Exception {
    double worstMl =
        worstMl(
            world -> {
              world.cutPower();
              throw new Killed();
            });
    assertTrue(worstMl <= 2, worstMl + " mL beyond the order: what dribbles, and the pump's error");
  }

  /**
   * The most that came into the cup beyond the order, over all pumps and moments to stop at, mL.
   */
  private static double worstMl(Stop stop) throws Exception {
    Bench bench = everyPart();
    double worstMl = 0;
    for (long pump = 1; pump <= PUMPS; pump++) {
      for (Duration moment = STEP; moment.compareTo(PASS) < 0; moment = moment.plus(STEP)) {
        worstMl = Math.max(worstMl, gotMl(bench, pump, moment, stop) - ORDER_ML);
      }
    }
    System.out.printf("at worst %.2f mL beyond the order%n", worstMl);
    return worstMl;
  }

  private static double gotMl(Bench bench, long seed, Duration moment, Stop stop) throws Exception {
    SimulatedBench world = SimulatedBench.of(bench, seed, TestBench.START);
    Context pi4j = world.newContext();
    try {
      BenchBoard board = BenchBoard.open(pi4j, bench, TestBench.pace(world.time()), world::oneWire);
      double beforeMl = world.cup("A2").balance().waterInMl();
      var stopping = new VirtualTime.Handle[1];
      stopping[0] =
          world
              .time()
              .every(
                  moment,
                  () -> {
                    stopping[0].close();
                    stop.at(world);
                  });
      try {
        board.give(GrantedPass.of("A2", ORDER_ML, 0));
      } catch (Killed meant) {
        // As far as the world goes there is no program any more.
      }
      stopping[0].close();
      world.time().advanceBy(LONG_AFTER);
      assertEquals(false, world.pumpOn(), "after " + moment);
      return world.cup("A2").balance().waterInMl() - beforeMl;
    } finally {
      pi4j.shutdown();
    }
  }

  private static Bench everyPart() throws Exception {
    try (var in = WorstMomentTest.class.getResourceAsStream("every-part.yaml")) {
      String text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return BenchFile.read("every-part.yaml", text);
    }
  }
}
