package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Five standard deviations, 2 g at least, belong; three pull. */
class HampelGateTest {
  @ParameterizedTest(name = "variance {0}: {1} g")
  @CsvSource({"0.01, 2.0", "0.16, 2.0", "0.25, 2.5", "4, 10"})
  void readingThatBelongs(double var, double limitG) {
    assertEquals(limitG, HampelGate.limitG(var), 1e-12);
  }

  @ParameterizedTest(name = "{0} g pull as {1}")
  @CsvSource({"5, 5", "6, 6", "7, 6", "-5, -5", "-7, -6"})
  void pullIsLimited(double surpriseG, double pullsG) {
    assertEquals(pullsG, HampelGate.clip(surpriseG, 4.0), 1e-12);
  }
}
