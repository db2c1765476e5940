package dev.cupwarden.app.service;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class LifeSignsTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  private final LifeSigns signs = new LifeSigns(TICK, Duration.ZERO, 0);

  private static long at(double minutes) {
    return Math.round(minutes * 60e9);
  }

  @Test
  void ticksThatFinishKeepItAlive() {
    for (int tick = 0; tick < 100; tick++) {
      signs.moved(at(5 * tick));
      signs.finished(at(5 * tick + 0.1));
      assertTrue(signs.alive(at(5 * tick + 4.9)));
    }
  }

  @Test
  void ticksThatFailDoNot() {
    signs.moved(at(5));
    signs.failed();
    assertTrue(signs.alive(at(14)));
    signs.moved(at(15));
    signs.failed();
    assertFalse(signs.alive(at(15.1)));
  }

  @Test
  void aTickThatHangsIsSeenWithinHalfAMinute() {
    signs.moved(at(5));
    assertTrue(signs.alive(at(5.3)));
    assertFalse(signs.alive(at(5.5)));
  }

  @Test
  void aLongRoundOfPassesIsNoHang() {
    signs.moved(at(5));
    for (double minute = 5; minute < 9; minute += 0.01) {
      signs.beat(at(minute));
      assertTrue(signs.alive(at(minute + 0.3)));
    }
  }

  @Test
  void aBeatBetweenTicksDoesNotBeginOne() {
    signs.finished(at(5));
    signs.beat(at(5.1));
    assertTrue(signs.alive(at(9)));
  }

  @Test
  void theFirstTickMayWaitForASoak() {
    LifeSigns settling = new LifeSigns(TICK, Duration.ofMinutes(12), 0);
    assertTrue(settling.alive(at(20)));
    assertFalse(settling.alive(at(28)));
  }
}
