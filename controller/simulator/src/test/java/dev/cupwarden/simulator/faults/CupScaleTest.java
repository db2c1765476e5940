package dev.cupwarden.simulator.faults;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class CupScaleTest {
  private static final double TICK_H = 5.0 / 60;

  @Test
  void aGoodScaleShowsItsLoadWithinHalfAGram() {
    for (int seed = 0; seed < 50; seed++) {
      CupScale scale = new CupScale(false, seed);
      double sum = 0;
      for (int i = 0; i < 100; i++) {
        sum += scale.read(350, 20, TICK_H, 1);
      }
      assertEquals(350, sum / 100, 0.5);
    }
  }

  @Test
  void aFreshLoadCreepsByNoMoreThanATenthOfAPercent() {
    // Creep of small single-point cells: 0.02 to 0.1 % in 30 min (from memory).
    for (int seed = 0; seed < 50; seed++) {
      CupScale scale = new CupScale(false, seed);
      scale.read(0, 20, TICK_H, 0);
      double first = scale.read(400, 20, TICK_H, 0);
      double last = first;
      for (int i = 0; i < 12; i++) {
        last = scale.read(400, 20, TICK_H, 0);
      }
      assertEquals(first, last, 0.4);
    }
  }

  @Test
  void aStuckScaleRepeatsItselfToTheLastBit() {
    CupScale scale = new CupScale(true, 3);
    double last = scale.read(321, 20, TICK_H, 1);
    assertEquals(last, scale.stuck());
    assertEquals(last, scale.stuck());
  }

  @Test
  void spikesComeButSeldom() {
    CupScale scale = new CupScale(true, 3);
    int spikes = 0;
    for (int i = 0; i < 30_000; i++) {
      spikes += Math.abs(scale.read(300, 20, TICK_H, 1) - 300) > 4.5 ? 1 : 0;
    }
    assertTrue(spikes > 5 && spikes < 50, "spikes " + spikes);
  }
}
