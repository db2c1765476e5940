package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A cup of 100 g dry and 500 g full: lifted within half of its dry weight from nothing; a weight of
 * its own from 4 % below its dry one to 2 % above its full one. One of 50 and 200 g has the least
 * margins, 3 and 5 g. Our choice.
 */
class RangeCheckTest {
  private static final WeightFrame LARGE = new WeightFrame(100, 400, 500, 250);
  private static final WeightFrame SMALL = new WeightFrame(50, 180, 200, 100);

  @ParameterizedTest(name = "{0} g: {1}")
  @CsvSource({
    "0, LIFTED",
    "49.9, LIFTED",
    "-49.9, LIFTED",
    "50, OUT_OF_RANGE",
    "-50, OUT_OF_RANGE",
    "95.9, OUT_OF_RANGE",
    "96, PLAUSIBLE",
    "510, PLAUSIBLE",
    "510.1, OUT_OF_RANGE",
    "NaN, OUT_OF_RANGE",
    "Infinity, OUT_OF_RANGE"
  })
  void weightOfALargeCup(double massG, RangeCheck.Verdict verdict) {
    assertEquals(verdict, RangeCheck.judge(massG, LARGE));
  }

  @ParameterizedTest(name = "{0} g: {1}")
  @CsvSource({"46.9, OUT_OF_RANGE", "47, PLAUSIBLE", "205, PLAUSIBLE", "205.1, OUT_OF_RANGE"})
  void weightOfASmallCup(double massG, RangeCheck.Verdict verdict) {
    assertEquals(verdict, RangeCheck.judge(massG, SMALL));
  }

  @ParameterizedTest(name = "{0} g breaks {1} g")
  @CsvSource({"510.1, 510", "600, 510", "510, 96", "60, 96"})
  void boundThatWasBroken(double massG, double boundG) {
    assertEquals(boundG, RangeCheck.boundG(massG, LARGE));
  }
}
