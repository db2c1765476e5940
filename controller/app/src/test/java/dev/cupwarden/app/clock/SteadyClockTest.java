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
  void personWhoHasLookedMakesAJumpForwardTheTime() {
    SteadyClock clock = SteadyClock.fresh(time);
    world.setWall(world.now().plus(Duration.ofDays(2)));
    clock.now();
    clock.acceptWall();
    assertEquals(world.now(), clock.now());
    assertTrue(clock.trusted());
  }
}
