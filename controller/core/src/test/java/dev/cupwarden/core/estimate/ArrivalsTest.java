package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The usual part counts as one pass, later passes for a tenth each: our choice. */
class ArrivalsTest {
  /** Half of the way from 1, where 0.6 is the least and 1.1 the most that a pass may show. */
  @ParameterizedTest(name = "{0} g of 30 mL: {1}")
  @CsvSource({"30, 1.0", "24, 0.9", "18, 0.8", "3, 0.8", "33, 1.05", "60, 1.05"})
  void firstPassGoesHalfTheWay(double riseG, double part) {
    Arrivals first = Arrivals.USUAL.plus(riseG, 30.0);
    assertEquals(part, first.part(), 1e-12);
    assertEquals(1, first.passes());
  }

  @Test
  void laterOnesAThirdAQuarterAndNeverLessThanATenth() {
    Arrivals two = Arrivals.USUAL.plus(30, 30).plus(21, 30);
    assertEquals(0.9, two.part(), 1e-12);
    assertEquals(0.85, two.plus(21, 30).part(), 1e-12);
    assertEquals(0.97, new Arrivals(1.0, 8).plus(21, 30).part(), 1e-12);
    assertEquals(0.97, new Arrivals(1.0, 50).plus(21, 30).part(), 1e-12);
  }
}
