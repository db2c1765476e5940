package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
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

  /**
   * By hand: the second day goes half the way of both means, from ln 2 to ln 4. After nine days the
   * quick one goes 1 - e^(-1/2) = 0.393469 of the way, the slow one a tenth; after nineteen the
   * slow one goes 1 - e^(-1/14) = 0.068938 of it.
   */
  @Test
  void quickAndSlowMeanOfTheLogarithm() {
    RootSignal second = RootSignal.NONE.day(Cups.START, 2, 1).day(Cups.START, 4, 1);
    assertEquals(1.5 * Math.log(2), second.quick(), 1e-12);
    assertEquals(1.5 * Math.log(2), second.slow(), 1e-12);
    RootSignal tenth = new RootSignal(Cups.START, 9, 0.2, 0.1).day(Cups.START, Math.exp(0.7), 1);
    assertEquals(0.2 + 0.393469 * 0.5, tenth.quick(), 1e-6);
    assertEquals(0.1 + 0.1 * 0.6, tenth.slow(), 1e-12);
    RootSignal later = new RootSignal(Cups.START, 19, 0.2, 0.1).day(Cups.START, Math.exp(0.7), 1);
    assertEquals(0.1 + 0.068938 * 0.6, later.slow(), 1e-6);
  }

  @Test
  void dayOfNoUseIsNone() {
    assertSame(RootSignal.NONE, RootSignal.NONE.day(Cups.START, 0, 1));
    assertSame(RootSignal.NONE, RootSignal.NONE.day(Cups.START, 1, 0));
  }

  @Test
  void fromTheSixthDayOnAndFromTwoFifthsMoreOnItDraws() {
    assertTrue(new RootSignal(Cups.START, 6, Math.log(1.4), 0).draws());
    assertFalse(new RootSignal(Cups.START, 5, Math.log(1.5), 0).draws());
    assertFalse(new RootSignal(Cups.START, 6, Math.log(1.399), 0).draws());
  }

  private void days(int days, double useGPerH, double neighboursGPerH) {
    for (int i = 0; i < days; i++) {
      signal = signal.day(Cups.START.plus(Duration.ofDays(day++)), useGPerH, neighboursGPerH);
    }
  }
}
