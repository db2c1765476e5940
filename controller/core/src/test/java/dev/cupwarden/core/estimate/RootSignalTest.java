package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class RootSignalTest {
  private RootSignal signal = RootSignal.NONE;
  private int day;

  @Test
  void cupThatDriesFasterThanItsNeighboursAndItsPastIsWorthALook() {
    days(10, 0.8, 0.8);
    assertTrue(signal.sign(true).isEmpty());
    days(4, 1.6, 0.8);
    RootSignal.Sign sign = signal.sign(false).orElseThrow();
    assertEquals("look-at-roots", sign.kind().code());
    assertTrue(sign.words().startsWith("uses more than before: "), sign.words());
  }

  @Test
  void cupThatUsesLessWhileWetIsSuspectedAndWhileDryIsNot() {
    days(10, 0.8, 0.8);
    days(4, 0.3, 0.8);
    assertEquals("rot-suspected", signal.sign(true).orElseThrow().kind().code());
    assertTrue(signal.sign(false).isEmpty());
  }

  @Test
  void weatherThatMovesAllCupsAlikeIsNoSign() {
    days(10, 0.8, 0.8);
    days(5, 2.4, 2.4);
    assertTrue(signal.sign(true).isEmpty());
  }

  @Test
  void withoutNeighboursOwnPastIsEnough() {
    days(10, 0.8, Double.NaN);
    days(4, 1.6, Double.NaN);
    assertTrue(signal.sign(true).isPresent());
  }

  @Test
  void nothingIsSaidInTheFirstDaysOrOfNonsense() {
    days(5, 0.1, 0.8);
    days(1, Double.NaN, 0.8);
    days(1, 1, 0);
    assertEquals(5, signal.days());
    assertTrue(signal.sign(true).isEmpty());
  }

  @Test
  void changeIsTheNewNormalAfterAMonth() {
    days(10, 0.8, 0.8);
    days(30, 1.6, 0.8);
    assertTrue(signal.sign(true).isEmpty());
  }

  private void days(int days, double useGPerH, double neighboursGPerH) {
    for (int i = 0; i < days; i++) {
      signal = signal.day(Cups.START.plus(Duration.ofDays(day++)), useGPerH, neighboursGPerH);
    }
  }
}
