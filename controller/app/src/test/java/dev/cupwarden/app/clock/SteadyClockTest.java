package dev.cupwarden.app.clock;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.simulator.VirtualTime;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class SteadyClockTest {
  private static final Instant START = Instant.parse("2027-01-10T08:00:00Z");

  private final VirtualTime world = new VirtualTime(START);
  private final AcceleratedTime time = new AcceleratedTime(world, AcceleratedTime.UNBOUNDED);

  @Test
  void followsAWallClockThatIsCorrectedInSmallSteps() {
    SteadyClock clock = SteadyClock.fresh(time);
    world.advanceBy(Duration.ofMinutes(5));
    world.setWall(world.now().plusSeconds(30));
    assertEquals(world.now(), clock.now());
    assertTrue(clock.trusted());
  }

  @Test
  void goesOnByItselfWhenTheWallClockJumpsEitherWay() {
    for (Duration jump : new Duration[] {Duration.ofDays(365), Duration.ofDays(-365)}) {
      SteadyClock clock = SteadyClock.fresh(time);
      Instant before = clock.now();
      world.setWall(world.now().plus(jump));
      world.advanceBy(Duration.ofMinutes(5));
      assertEquals(before.plus(Duration.ofMinutes(5)), clock.now());
      assertFalse(clock.trusted());
      assertEquals((double) jump.toSeconds(), clock.aheadS(), 1);
      world.setWall(world.now().minus(jump));
      clock.now();
      assertTrue(clock.trusted(), "agrees again");
    }
  }

  @Test
  void neverGoesBackByASmallCorrection() {
    SteadyClock clock = SteadyClock.fresh(time);
    Instant first = clock.now();
    world.setWall(world.now().minusSeconds(60));
    Instant second = clock.now();
    assertTrue(second.isAfter(first));
  }

  @Test
  void machineThatStartsWithoutTheTimeIsBelievedOnceItHasHeardATimeServer() {
    Instant last = START.plus(Duration.ofDays(30));
    SteadyClock clock = SteadyClock.after(last, time);
    assertTrue(clock.now().isAfter(last));
    assertFalse(clock.trusted());
    world.setWall(last.plus(Duration.ofHours(3)));
    world.advanceBy(Duration.ofMinutes(1));
    assertEquals(world.now(), clock.now());
    assertTrue(clock.trusted());
  }

  @Test
  void machineThatGoesOnFromWhenItWasStoppedIsBelievedAsWell() {
    SteadyClock clock = SteadyClock.after(START.minusSeconds(20), time);
    assertTrue(clock.trusted());
    world.advanceBy(Duration.ofMinutes(2));
    world.setWall(world.now().plus(Duration.ofHours(5)));
    assertEquals(world.now(), clock.now());
    assertTrue(clock.trusted());
    world.advanceBy(Duration.ofMinutes(5));
    world.setWall(world.now().plus(Duration.ofHours(5)));
    assertTrue(clock.now().isBefore(world.now()));
    assertFalse(clock.trusted(), "a server says it once");
  }

  @Test
  void jumpLongAfterTheStartIsNoTimeServer() {
    SteadyClock clock = SteadyClock.after(START.minusSeconds(20), time);
    world.advanceBy(Duration.ofHours(2));
    clock.now();
    world.setWall(world.now().plus(Duration.ofHours(5)));
    for (int look = 0; look < 3; look++) {
      clock.now();
      assertFalse(clock.trusted());
    }
  }

  @Test
  void machineThatStartsAYearAheadIsNotBelieved() {
    Instant last = START.minus(Duration.ofDays(365));
    SteadyClock clock = SteadyClock.after(last, time);
    assertFalse(clock.trusted());
    world.advanceBy(Duration.ofMinutes(5));
    assertEquals(last.plus(Duration.ofMinutes(5)), clock.now().minusMillis(1));
    assertFalse(clock.trusted());
    world.setWall(last.plus(Duration.ofHours(3)));
    assertEquals(world.now(), clock.now());
    assertTrue(clock.trusted());
  }

  @Test
  void personWhoHasLookedMakesAJumpForwardTheTime() {
    SteadyClock clock = SteadyClock.fresh(time);
    world.setWall(world.now().plus(Duration.ofDays(2)));
    clock.now();
    clock.acceptWall();
    assertEquals(world.now(), clock.now());
    assertTrue(clock.trusted());
  }

  @Test
  void personWhoHasLookedMakesAJumpBackTheTimeBitByBit() {
    SteadyClock clock = SteadyClock.fresh(time);
    clock.now();
    world.setWall(world.now().minus(Duration.ofHours(3)));
    Instant before = clock.now();
    assertFalse(clock.trusted());
    clock.acceptWall();
    for (int tick = 0; tick < 31 * 12; tick++) {
      world.advanceBy(Duration.ofMinutes(5));
      Instant now = clock.now();
      assertTrue(clock.trusted());
      Duration step = Duration.between(before, now);
      assertTrue(step.compareTo(Duration.ofSeconds(269)) > 0, step + " in 5 min");
      before = now;
    }
    assertEquals(world.now(), before, "they have met");
  }

  @Test
  void nobodyMakesItGoBackByMonths() {
    SteadyClock clock = SteadyClock.fresh(time);
    world.setWall(world.now().minus(Duration.ofDays(60)));
    clock.now();
    clock.acceptWall();
    clock.now();
    assertFalse(clock.trusted());
  }
}
