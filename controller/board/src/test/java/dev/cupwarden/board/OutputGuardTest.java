package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** The guard in its own thread, in real time: what runs on a bench. */
class OutputGuardTest {
  private final RecordedLines lines = new RecordedLines(new VirtualTime(TestBench.START));

  @Test
  void aDosingThreadThatHangsLosesItsOutputsWithinTwoSeconds() throws Exception {
    try (RealPace pace = new RealPace()) {
      CountDownLatch off = new CountDownLatch(1);
      OutputLine pump = told(lines.line("pump"), off);
      Outputs outputs =
          new Outputs(
              new Outputs.Lines(pump, lines.lines("VA1"), Set.of(), Optional.empty()),
              pace,
              Duration.ofSeconds(30));
      outputs.arm();
      outputs.open("VA1");
      outputs.pumpOn();
      long began = System.nanoTime();
      // Nobody beats from here on.
      assertTrue(off.await(3, TimeUnit.SECONDS));
      double tookS = (System.nanoTime() - began) * 1e-9;
      assertTrue(tookS > 1.5 && tookS <= 2.0, "off after " + tookS + " s");
      assertEquals("The dosing loop was silent for too long.", outputs.tripped().orElseThrow());
    }
  }

  @Test
  void aPumpThatRunsTooLongIsOffThoughTheLoopBeats() throws Exception {
    try (RealPace pace = new RealPace()) {
      CountDownLatch off = new CountDownLatch(1);
      OutputLine pump = told(lines.line("pump"), off);
      Outputs outputs =
          new Outputs(
              new Outputs.Lines(pump, lines.lines("VA1"), Set.of(), Optional.empty()),
              pace,
              Duration.ofMillis(300));
      outputs.arm();
      outputs.open("VA1");
      outputs.pumpOn();
      for (int beat = 0; beat < 100 && off.getCount() > 0; beat++) {
        outputs.beat();
        pace.pause(Duration.ofMillis(20));
      }
      assertTrue(outputs.tripped().orElseThrow().contains("longer than the board allows"));
      assertEquals(0, off.getCount());
    }
  }

  private static OutputLine told(OutputLine line, CountDownLatch off) {
    return new OutputLine() {
      private volatile boolean wasOn;

      @Override
      public String name() {
        return line.name();
      }

      @Override
      public void on() throws ChipException {
        wasOn = true;
        line.on();
      }

      @Override
      public void off() throws ChipException {
        line.off();
        if (wasOn) {
          off.countDown();
        }
      }
    };
  }
}
