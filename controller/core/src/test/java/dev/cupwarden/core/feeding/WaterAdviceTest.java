package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.Water;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WaterAdviceTest {
  private static Water water(double ec, double alkalinity) {
    return new Water(ec, OptionalDouble.of(alkalinity), OptionalDouble.empty());
  }

  @Test
  @Outside(source = "greenhousemag.com, water pH and alkalinity: 0 to 100 ppm CaCO3 is desirable")
  void waterOfUpToAHundredIsNotSpokenOf() {
    assertEquals(List.of(), WaterAdvice.of(water(0.3, 100)));
    assertTrue(WaterAdvice.of(water(0.3, 101)).get(0).contains("101 mg/L as CaCO3, above 100"));
    assertTrue(WaterAdvice.of(water(0.3, 150)).get(0).contains("watch for"));
    assertTrue(WaterAdvice.of(water(0.3, 151)).get(0).contains("iron is out of reach"));
  }

  /** 100 of 250 may stay: 0.6 is rain; 0.75 of 1.2: 0.375, in twentieths 0.4. */
  @ParameterizedTest(name = "{0} mS/cm, {1} mg/L: {2}")
  @CsvSource({"0.3, 250, 0.6", "1.2, 50, 0.4", "1.2, 250, 0.6", "0.75, 100, 0", "0.3, 101, 0.05"})
  void shareOfRainThatBringsItDown(double ec, double alkalinity, double rain) {
    assertEquals(rain, WaterAdvice.rainPart(water(ec, alkalinity)), 1e-12);
  }

  /** FAO-29's equation 9 with 2.0 mS/cm of a saturated extract: 1.0 / (10 - 1.0) is 11 %. */
  @Test
  void saltyWaterMustRunThroughInPart() {
    List<String> told = WaterAdvice.of(Water.of(1.0));
    assertTrue(told.get(0).contains("1.00 mS/cm, above 0.75"), told.get(0));
    assertTrue(told.get(1).contains("let 11 % of each watering"), told.get(1));
    assertTrue(told.get(2).contains("25 % of rain"), told.get(2));
    assertTrue(told.get(3).contains("Do not pour in acid"), told.get(3));
    // 4.9 / (10 - 4.9) is 96 %; from 5.0 on more would have to run through than comes.
    assertTrue(WaterAdvice.of(Water.of(4.9)).get(1).contains("let 96 % of each watering"));
    assertTrue(WaterAdvice.of(Water.of(5.0)).get(1).contains("No flush"));
  }

  @Test
  void waterThatCuttingsJustBearIsNotSpokenOf() {
    assertEquals(List.of(), WaterAdvice.of(water(0.75, 50)));
  }

  @Test
  void highPhAloneAsksForItsAlkalinity() {
    Water alone = new Water(0.3, OptionalDouble.empty(), OptionalDouble.of(7.8));
    assertTrue(WaterAdvice.of(alone).get(0).startsWith("A pH of 7.8 says little"));
    Water known = new Water(0.3, OptionalDouble.of(60), OptionalDouble.of(7.8));
    assertEquals(List.of(), WaterAdvice.of(known));
    Water low = new Water(0.3, OptionalDouble.empty(), OptionalDouble.of(7.2));
    assertEquals(List.of(), WaterAdvice.of(low));
  }
}
