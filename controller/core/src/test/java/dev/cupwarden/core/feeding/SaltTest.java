package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SaltTest {
  @ParameterizedTest(name = "ECw {0}, ECe {1}")
  @CsvSource({"1.2, 2.5, .106195, .10, .11", "1.2, 1.7, .164384, .16, .17"})
  @Outside(source = "FAO-29 rev. 1 (Ayers and Westcot 1985), maize example (from memory)")
  void leachingRequirementOfMaize(
      double water, double soil, double exact, double printedFrom, double printedTo) {
    double requirement = Leaching.requirement(water, soil);
    assertEquals(exact, requirement, 1e-5 * exact);
    assertTrue(requirement >= printedFrom && requirement <= printedTo);
  }

  @ParameterizedTest(name = "ECe {0}: below {1}")
  @CsvSource({"0.24, 0.6", "0.2, 0.5", "0.48, 1.2", "0.3, 0.75"})
  void waterTooSaltyToLeachWithIsRefused(double soil, String bound) {
    String said =
        assertThrows(IllegalArgumentException.class, () -> Leaching.requirement(1.2, soil))
            .getMessage();
    assertTrue(said.startsWith("waterMsPerCm must be below " + bound + " mS/cm"), said);
  }

  @ParameterizedTest(name = "{0} by {1}")
  @CsvSource({
    "LOW, SATURATED, 0.8",
    "LOW, POUR_THROUGH, 1.0",
    "NORMAL, SATURATED, 2.0",
    "NORMAL, POUR_THROUGH, 2.6"
  })
  @Outside(source = "UMass root-medium EC table, NC State HIL 590")
  void bandsOfARootMedium(RootMediumSalt band, RootMediumSalt.Extract extract, double from) {
    assertEquals(from, band.fromMsPerCm(extract));
  }

  @Test
  @Outside(source = "extension texts: EC of a feed is the water's and the fertiliser's together")
  void feedAddsToTheWatersConductivity() {
    // 50 mg N per L of a feed that gives .65 mS/cm per 100 mg N per L: 20 % N, 1.3 per g per L.
    assertEquals(0.625, Conductivity.ofFeed(0.30, 0.25, 1.3), 1e-12);
    assertEquals(50, new Analysis(20, 0, 0).elementsMg(0.25).nMg(), 1e-9);
  }

  @Test
  void saltThatCannotBeIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> Leaching.requirement(Double.NaN, 2));
  }
}
