package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;

class RootSignalTest {
  private RootSignal signal = RootSignal.NONE;
  private int day;

  @Test
  void cupThatDriesFasterThanItsNeighboursAndItsPastIsWorthALook() {
    days(10, 0.8, 0.8);
    assertFalse(signal.draws());
    days(4, 1.6, 0.8);
    assertTrue(signal.draws());
  }

  /** Too much besides failing roots makes a cutting draw less. */
  @Test
  void ofOneThatDriesSlowerNothingIsSaid() {
    days(10, 0.8, 0.8);
    days(4, 0.1, 0.8);
    assertFalse(signal.draws());
  }

  @Test
  void weatherThatMovesAllCupsAlikeIsNoSign() {
    days(10, 0.8, 0.8);
    days(5, 2.4, 2.4);
    assertFalse(signal.draws());
  }

  @Test
  void withoutNeighboursOwnPastIsEnough() {
    days(10, 0.8, Double.NaN);
    days(4, 1.6, Double.NaN);
    assertTrue(signal.draws());
  }

  @Test
  void nothingIsSaidInTheFirstDaysOrOfNonsense() {
    days(5, 0.1, 0.8);
    days(1, Double.NaN, 0.8);
    days(1, 1, 0);
    assertEquals(5, signal.days());
    assertFalse(signal.draws());
  }

  @Test
  void changeIsTheNewNormalAfterAMonth() {
    days(10, 0.8, 0.8);
    days(30, 1.6, 0.8);
    assertFalse(signal.draws());
  }

  private void days(int days, double useGPerH, double neighboursGPerH) {
    for (int i = 0; i < days; i++) {
      signal = signal.day(Cups.START.plus(Duration.ofDays(day++)), useGPerH, neighboursGPerH);
    }
  }
}
