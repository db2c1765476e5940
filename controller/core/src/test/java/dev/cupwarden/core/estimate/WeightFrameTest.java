package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup of 100 g dry, 400 g at capacity, 500 g full, of which 250 mL can be taken. */
class WeightFrameTest {
  @ParameterizedTest(name = "{0} g: {1}")
  @CsvSource({"400, 0", "275, 0.5", "150, 1", "425, -0.1"})
  void depletionAndWeight(double massG, double depletion) {
    WeightFrame frame = new WeightFrame(100, 400, 500, 250);
    assertEquals(depletion, frame.depletion(massG), 1e-12);
    assertEquals(massG, frame.massG(depletion), 1e-9);
    assertEquals(300, frame.capacityMl());
  }

  @ParameterizedTest(name = "{0}, {1}, {2} g and {3} mL")
  @CsvSource({
    "0, 400, 500, 250",
    "400, 400, 500, 250",
    "100, 400, 399.9, 250",
    "100, 400, 1e6, 250",
    "NaN, 400, 500, 250",
    "100, 400, 500, 0",
    "100, 400, 500, NaN",
    "100, 400, 500, 1e6",
    "100, 400, 500, 300.1"
  })
  void weightsThatCannotBeAreRefused(double dryG, double capacityG, double fullG, double ml) {
    assertThrows(IllegalArgumentException.class, () -> new WeightFrame(dryG, capacityG, fullG, ml));
  }

  @Test
  void allThatThereIsMayBeTakenAndCapacityMayBeFull() {
    assertEquals(300, new WeightFrame(100, 400, 400, 300).availableMl());
  }
}
