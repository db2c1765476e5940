package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.checks.Outside;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LightSumTest {
  private static final Instant DAWN = Instant.parse("2027-02-14T08:00:00Z");
  private static final Duration GAP = Duration.ofMinutes(30);

  @Test
  @Outside(source = "HortScience 54(4):684, 60 umol for 16 h printed as 3.4 mol/m2/d")
  void aPublishedLampGivesItsPublishedSum() {
    assertEquals(3.456, LightSum.ofLamp(60, 16), 1e-12);
    assertEquals(3.4, LightSum.ofLamp(60, 16), 0.06);
  }

  @ParameterizedTest(name = "{0} umol, {1} h")
  @CsvSource({"100, 12, 4.32", "150, 14, 7.56"})
  @Outside(source = "definition of the daily light integral, computed apart")
  void lampHours(double umol, double hours, double mol) {
    assertEquals(mol, LightSum.ofLamp(umol, hours), 1e-12);
  }

  @Test
  void readingsOfASteadyLampSumToTheLampsOwn() {
    LightSum sum = LightSum.NONE;
    for (int minute = 0; minute <= 12 * 60; minute += 5) {
      sum = sum.plus(at(minute, 100), GAP);
    }
    assertEquals(4.32, sum.molPerM2(), 1e-9);
    assertEquals(Duration.ZERO, sum.missed());
  }

  /** 200 µmol/m²/s on the mean for half an hour: 200e-6 x 1800 mol/m². */
  @Test
  void betweenTwoReadingsTheirMeanCounts() {
    LightSum sum = LightSum.NONE.plus(at(0, 100), GAP).plus(at(30, 300), GAP);
    assertEquals(0.36, sum.molPerM2(), 1e-12, "30 min are no gap");
    assertEquals(Duration.ZERO, sum.missed());
    assertEquals(sum, sum.plus(at(30, 300), GAP), "the same reading again");
  }

  @Test
  void gapsAddUp() {
    LightSum sum =
        LightSum.NONE.plus(at(0, 100), GAP).plus(at(31, 100), GAP).plus(at(63, 100), GAP);
    assertEquals(0, sum.molPerM2());
    assertEquals(Duration.ofMinutes(63), sum.missed());
  }

  @Test
  void aGapAddsNoLightAndIsTold() {
    LightSum sum = LightSum.NONE.plus(at(0, 200), GAP).plus(at(120, 200), GAP);
    assertEquals(0, sum.molPerM2());
    assertEquals(Duration.ofHours(2), sum.missed());
  }

  @Test
  void aReadingOfThePastOrOfNoSenseIsRefused() {
    LightSum sum = LightSum.NONE.plus(at(10, 200), GAP);
    assertThrows(IllegalArgumentException.class, () -> sum.plus(at(5, 200), GAP));
    assertThrows(IllegalArgumentException.class, () -> at(0, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> at(0, -1));
    assertThrows(IllegalArgumentException.class, () -> LightSum.ofLamp(100, -1));
  }

  private static LightSum.LightAt at(int minute, double umol) {
    return new LightSum.LightAt(DAWN.plus(Duration.ofMinutes(minute)), umol);
  }
}
