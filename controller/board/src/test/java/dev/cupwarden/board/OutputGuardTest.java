package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.util.Map;
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

  @Test
  void aDriverThatBlocksInTheMidstOfACallLosesThePumpWithinTwoSeconds() throws Exception {
    CountDownLatch released = new CountDownLatch(1);
    CountDownLatch off = new CountDownLatch(1);
    Thread dosing = null;
    try (RealPace pace = new RealPace()) {
      OutputLine pump = told(lines.line("pump"), off);
      Outputs outputs =
          new Outputs(
              new Outputs.Lines(
                  pump,
                  Map.of("feed", lines.line("feed"), "VA1", blocking("VA1", released)),
                  Set.of("feed"),
                  Optional.empty()),
              pace,
              Duration.ofSeconds(30));
      outputs.arm();
      CountDownLatch pumping = new CountDownLatch(1);
      dosing =
          new Thread(
              () -> {
                try {
                  outputs.open("feed");
                  outputs.pumpOn();
                  pumping.countDown();
                  outputs.open("VA1"); // does not return
                } catch (ChipException expected) {
                  Thread.currentThread().interrupt(); // it was switched off meanwhile
                }
              });
      dosing.start();
      assertTrue(pumping.await(10, TimeUnit.SECONDS));
      long began = System.nanoTime();
      assertTrue(off.await(10, TimeUnit.SECONDS));
      double tookS = (System.nanoTime() - began) * 1e-9;
      assertTrue(tookS <= 2.0, "off after " + tookS + " s");
    } finally {
      released.countDown();
      if (dosing != null) {
        dosing.join(10_000);
      }
    }
  }

  @Test
  void aBusThatHangsHoldsUpNeitherThePumpNorTheValvesOnLines() throws Exception {
    CountDownLatch released = new CountDownLatch(1);
    CountDownLatch pumpOff = new CountDownLatch(1);
    CountDownLatch valveOff = new CountDownLatch(1);
    try (RealPace pace = new RealPace()) {
      OutputLine onBus = stuckBus("A-first-by-name", released);
      Outputs outputs =
          new Outputs(
              new Outputs.Lines(
                  told(lines.line("pump"), pumpOff),
                  Map.of("A-first-by-name", onBus, "VA1", told(lines.line("VA1"), valveOff)),
                  Set.of("A-first-by-name"),
                  Optional.empty()),
              pace,
              Duration.ofSeconds(30));
      outputs.arm();
      outputs.open("A-first-by-name");
      outputs.open("VA1");
      outputs.pumpOn();
      long began = System.nanoTime();
      assertTrue(pumpOff.await(10, TimeUnit.SECONDS));
      assertTrue(valveOff.await(10, TimeUnit.SECONDS));
      double tookS = (System.nanoTime() - began) * 1e-9;
      assertTrue(tookS <= 2.0, "off after " + tookS + " s");
    } finally {
      released.countDown();
    }
  }

  /** A line whose driver does not return from switching on. */
  private OutputLine blocking(String name, CountDownLatch released) {
    OutputLine line = lines.line(name);
    return new OutputLine() {
      @Override
      public String name() {
        return name;
      }

      @Override
      public void on() throws ChipException {
        awaitForever(released);
        line.on();
      }

      @Override
      public void off() throws ChipException {
        line.off();
      }
    };
  }

  /** A line over a bus that hangs once the line has been switched on. */
  private OutputLine stuckBus(String name, CountDownLatch released) {
    OutputLine line = lines.line(name);
    return new OutputLine() {
      private volatile boolean hangs;

      @Override
      public String name() {
        return name;
      }

      @Override
      public void on() throws ChipException {
        line.on();
        hangs = true;
      }

      @Override
      public void off() throws ChipException {
        if (hangs) {
          awaitForever(released);
        }
        line.off();
      }

      @Override
      public boolean overBus() {
        return true;
      }
    };
  }

  private static void awaitForever(CountDownLatch released) {
    boolean over = false;
    while (!over) {
      try {
        released.await();
        over = true;
      } catch (InterruptedException deaf) {
        over = released.getCount() == 0; // as a call into the kernel that no signal ends
      }
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
