package dev.cupwarden.simulator;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class VirtualTimeTest {
  private static final Instant START = Instant.parse("2027-02-14T08:00:00Z");
  private final VirtualTime time = new VirtualTime(START);

  @Test
  void tasksRunAtTheirOwnTimesInOrder() {
    List<String> ran = new ArrayList<>();
    time.every(Duration.ofSeconds(2), () -> ran.add("two@" + time.nanos() / 1_000_000_000));
    time.every(Duration.ofSeconds(3), () -> ran.add("three@" + time.nanos() / 1_000_000_000));
    time.advanceBy(Duration.ofMillis(6500));
    assertEquals(List.of("two@2", "three@3", "two@4", "two@6", "three@6"), ran);
    assertEquals(START.plusMillis(6500), time.now());
  }

  @Test
  void aClosedTaskRunsNoMoreEvenWhenItClosesItself() {
    List<Long> ran = new ArrayList<>();
    VirtualTime.Handle[] handle = new VirtualTime.Handle[1];
    handle[0] =
        time.every(
            Duration.ofSeconds(1),
            () -> {
              ran.add(time.nanos());
              handle[0].close();
            });
    time.advanceBy(Duration.ofMinutes(1));
    assertEquals(List.of(1_000_000_000L), ran);
  }

  @Test
  void theWallClockMayJumpWhileMonotonicTimeGoesOn() {
    time.advanceBy(Duration.ofSeconds(10));
    time.setWall(START.minus(Duration.ofDays(365)));
    assertEquals(10_000_000_000L, time.nanos());
    assertEquals(START.minus(Duration.ofDays(365)), time.now());
    time.advanceTo(5L);
    assertEquals(10_000_000_000L, time.nanos(), "time never goes back");
  }

  @Test
  void aTaskWithoutAPeriodIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> time.every(Duration.ZERO, () -> {}));
  }
}
