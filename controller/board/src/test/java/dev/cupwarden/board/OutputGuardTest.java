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

/** The guard: when, by a clock that is moved by hand; and in its own thread, as on a bench. */
class OutputGuardTest {
  private final VirtualTime time = new VirtualTime(TestBench.START);
  private final RecordedLines lines = new RecordedLines(time);

  private Outputs running(CountDownLatch off, Duration longest) throws ChipException {
    Outputs outputs =
        new Outputs(
            new Outputs.Lines(
                told(lines.line("pump"), off), lines.lines("VA1"), Set.of(), Optional.empty()),
            TestBench.pace(time),
            longest);
    outputs.arm();
    outputs.open("VA1");
    outputs.pumpOn();
    return outputs;
  }

  @Test
  void aDosingThreadThatHangsLosesItsOutputsWithinTwoSeconds() throws Exception {
    CountDownLatch off = new CountDownLatch(1);
    Outputs outputs = running(off, Duration.ofSeconds(30));
    time.advanceBy(Duration.ofMillis(1_700)); // Nobody beats.
    assertEquals(1, off.getCount(), "it may still come");
    time.advanceBy(Duration.ofMillis(300));
    assertEquals(0, off.getCount());
    assertEquals("The dosing loop was silent for too long.", outputs.tripped().orElseThrow());
  }

  @Test
  void aPumpThatRunsTooLongIsOffThoughTheLoopBeats() throws Exception {
    CountDownLatch off = new CountDownLatch(1);
    Outputs outputs = running(off, Duration.ofMillis(300));
    for (int beat = 0; beat < 15; beat++) {
      assertEquals(1, off.getCount(), "for as long as the board allows");
      outputs.beat();
      time.advanceBy(Duration.ofMillis(20));
    }
    time.advanceBy(Duration.ofMillis(200));
    assertTrue(outputs.tripped().orElseThrow().contains("longer than the board allows"));
    assertEquals(0, off.getCount());
  }

  @Test
  void aDriverThatBlocksInTheMidstOfACallLosesThePump() throws Exception {
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
      assertTrue(off.await(10, TimeUnit.SECONDS));
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
      assertTrue(pumpOff.await(10, TimeUnit.SECONDS));
      assertTrue(valveOff.await(10, TimeUnit.SECONDS));
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
