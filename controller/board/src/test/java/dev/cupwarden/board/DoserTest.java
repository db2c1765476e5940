package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.limits.GrantedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What the outputs do during a pass, whatever goes wrong. Pump: 1.5 mL/s. */
class DoserTest {
  private final VirtualTime time = new VirtualTime(TestBench.START);
  private final Pace pace = TestBench.pace(time);
  private final RecordedLines lines = new RecordedLines(time);
  private final Bench bench = TestBench.of(2);
  private final OnTimeCaps caps =
      new OnTimeCaps(OnTimeCaps.Caps.of(bench, bench.board().orElseThrow()));
  private final Outputs outputs =
      new Outputs(
          new Outputs.Lines(
              lines.line("pump"),
              lines.lines("VA1", "VA2", "feed", "plain"),
              Set.of("feed", "plain"),
              Optional.empty()),
          pace,
          caps.perPass());
  private final Doser doser = doser(pace);

  private Doser doser(Pace ownPace) {
    try {
      Plumbing plumbing = new Plumbing(bench, bench.board().orElseThrow());
      LeakLine none = new LeakLine(Optional.empty(), ownPace);
      return new Doser(outputs, plumbing, caps, none, TestBench.ML_PER_S, ownPace);
    } catch (BoardException e) {
      throw new AssertionError(e);
    }
  }

  private static DoseOutcome.Failed failed(DoseOutcome outcome) {
    return assertInstanceOf(DoseOutcome.Failed.class, outcome);
  }

  @Test
  void pumpIsLastOnAndFirstOffAndPlainGoesBeforeFeed() {
    DoseOutcome outcome = doser.give(GrantedPass.of("A2", 15, 7.5));
    assertEquals(
        List.of(
            "+VA2@0.0",
            "+plain@0.0",
            "+pump@0.0",
            "-pump@10.0",
            "-plain@10.3",
            "+feed@10.3",
            "+pump@10.3",
            "-pump@15.3",
            "-feed@15.6",
            "-VA2@15.6"),
        lines.changes());
    assertEquals(new DoseOutcome.Given(15.0, 7.5), outcome);
  }

  @Test
  void lineThatBreaksKeepsNoOtherOn() throws ChipException {
    outputs.arm();
    outputs.open("VA2");
    outputs.open("plain");
    lines.breakOff("VA2");
    outputs.allOff();
    assertTrue(outputs.stuckOn().orElseThrow().contains("VA2"));
    assertEquals(Set.of("VA2"), lines.on());
  }

  @Test
  void waterComesOutOfTheTankThatThePassNames() {
    doser.give(GrantedPass.from("feed", "A2", 15));
    assertTrue(lines.changes().contains("+feed@0.0"), lines.changes().toString());
    assertFalse(lines.changes().contains("+plain@0.0"), lines.changes().toString());
    String refused = failed(doser.give(GrantedPass.from("barrel", "A2", 15))).reason();
    assertEquals("No valve leads from the tank barrel.", refused);
  }

  @Test
  void aHungDosingLoopLosesItsOutputsWithinTwoSeconds() {
    // The second wait of the pass hangs: half a minute goes by without a beat.
    Pace hanging =
        new Pace() {
          private int waits;

          @Override
          public long nanos() {
            return pace.nanos();
          }

          @Override
          public void until(long nanos) {
            pace.until(++waits == 2 ? nanos + Duration.ofSeconds(30).toNanos() : nanos);
          }

          @Override
          public Repeating every(Duration period, Runnable task) {
            return pace.every(period, task);
          }
        };
    DoseOutcome.Failed outcome = failed(doser(hanging).give(GrantedPass.of("A1", 30, 0)));
    // Last beat at 0.25 s.
    assertEquals("-pump@2.1", lines.changes().get(3));
    assertEquals(Set.of(), lines.on());
    assertEquals(2.1 * TestBench.ML_PER_S, outcome.plainMl(), 0.16);
    assertEquals("The dosing loop was silent for too long.", outcome.reason());
  }

  @Test
  void theNextPassAfterATripIsGiven() {
    time.every(Duration.ofSeconds(3), () -> outputs.trip("Leak."));
    assertEquals("Leak.", failed(doser.give(GrantedPass.of("A1", 30, 0))).reason());
    assertEquals(Set.of(), lines.on());
    assertInstanceOf(DoseOutcome.Given.class, doser.give(GrantedPass.of("A1", 3, 0)));
  }

  @Test
  void aPumpThatCannotBeSwitchedOffIsToldAndNothingIsGivenUntilItCan() {
    AllowedPass pass = GrantedPass.of("A1", 15, 0);
    time.every(Duration.ofSeconds(5), () -> lines.refuseOff("pump"));
    DoseOutcome.Failed outcome = failed(doser.give(pass));
    assertEquals("pump does not switch.", outcome.reason());
    assertEquals(Set.of("pump"), lines.on(), "the valves are shut all the same");
    assertTrue(outputs.stuckOn().orElseThrow().contains("pump"));

    assertTrue(failed(doser.give(pass)).reason().contains("Take the supply from the pump"));
    lines.obeyAgain();
    outputs.allOff();
    assertEquals(Set.of(), lines.on());
    assertEquals(java.util.Optional.empty(), outputs.stuckOn());
  }

  @Test
  void aValveThatDoesNotSwitchNeverGetsAPumpBehindIt() {
    lines.refuseOn("plain");
    DoseOutcome.Failed outcome = failed(doser.give(GrantedPass.of("A1", 15, 0)));
    assertEquals(new DoseOutcome.Failed(0, 0, "plain does not switch."), outcome);
    assertFalse(lines.changes().stream().anyMatch(change -> change.startsWith("+pump")));
  }

  @Test
  void aPassLongerThanTheBoardAllowsIsRefusedWhole() {
    DoseOutcome.Failed outcome = failed(doser.give(GrantedPass.of("A1", 60, 0)));
    assertEquals(
        "The pump would run for 40.0 s at one go; the board allows 31.0 s.", outcome.reason());
    assertEquals(List.of(), lines.changes());
  }

  @Test
  void anHourAndADayHaveTheirCaps() {
    // Two cups of 516 mL: 0.4 of 1,032 mL in an hour, all of it in a day.
    double givenMl = giveUntilRefused("within an hour");
    assertEquals(412, givenMl, 30);
    for (int hour = 0; hour < 2; hour++) {
      time.advanceBy(Duration.ofHours(1));
      givenMl += giveUntilRefused("within a");
    }
    assertEquals(1032, givenMl, 30);
    time.advanceBy(Duration.ofHours(24));
    assertInstanceOf(DoseOutcome.Given.class, doser.give(GrantedPass.of("A1", 30, 0)));
  }

  private double giveUntilRefused(String because) {
    double givenMl = 0;
    for (int pass = 0; pass < 100; pass++) {
      DoseOutcome outcome = doser.give(GrantedPass.of("A1", 30, 0));
      if (outcome instanceof DoseOutcome.Failed refused) {
        assertTrue(refused.reason().contains(because), refused.reason());
        return givenMl;
      }
      givenMl += outcome.plainMl();
    }
    throw new AssertionError("never refused");
  }

  @Test
  void onlyOneValveOfAKindIsEverOpen() throws ChipException {
    outputs.arm();
    outputs.open("VA1");
    outputs.open("plain");
    for (String other : List.of("VA2", "feed")) {
      org.junit.jupiter.api.Assertions.assertThrows(ChipException.class, () -> outputs.open(other));
    }
    assertEquals(Set.of("VA1", "plain"), lines.on());
    outputs.disarm();
    assertEquals(Set.of(), lines.on());
  }

  @Test
  void volumesThatAreNoVolumesAreRefused() {
    for (double ml : new double[] {0, -1, Double.NaN, Double.POSITIVE_INFINITY}) {
      failed(doser.give(GrantedPass.of("A1", ml, 0)));
    }
    failed(doser.give(GrantedPass.of("A1", 20, -5)));
    failed(doser.give(GrantedPass.of("Z9", 20, 0)));
    assertEquals(List.of(), lines.changes());
  }

  @Test
  void anInterruptedThreadStopsItsPass() {
    time.every(Duration.ofSeconds(2), Thread.currentThread()::interrupt);
    DoseOutcome.Failed outcome = failed(doser.give(GrantedPass.of("A1", 30, 0)));
    assertTrue(Thread.interrupted(), "the mark stays for the loop to see");
    assertEquals("The pass was stopped from outside.", outcome.reason());
    assertEquals(Set.of(), lines.on());
  }
}
