package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
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

  @ParameterizedTest(name = "800 mm, leaching fraction {0}")
  @CsvSource({".10, 888.889", ".106195, 895.050"})
  @Outside(source = "FAO-29 rev. 1, equation 7, maize example (from memory)")
  void waterToApplyToMaize(double fraction, double appliedMm) {
    assertEquals(appliedMm, Leaching.applied(800, fraction), 1e-5 * appliedMm);
  }

  @ParameterizedTest(name = "ECe {0}: below {1}")
  @CsvSource({"0.24, 0.6", "0.2, 0.5", "0.48, 1.2", "0.3, 0.75"})
  void waterTooSaltyToLeachWithIsRefused(double soil, String bound) {
    String said =
        assertThrows(IllegalArgumentException.class, () -> Leaching.requirement(1.2, soil))
            .getMessage();
    assertTrue(said.startsWith("waterMsPerCm must be below " + bound + " mS/cm"), said);
  }

  @ParameterizedTest(name = "leaching fraction {0}")
  @CsvSource(
      textBlock =
          """
          .05, 3.2, 3.249
          .10, 2.1, 2.053
          .15, 1.6, 1.591
          .20, 1.3, 1.331
          .25, 1.2, 1.161
          .30, 1.0, 1.039
          .40,  .9,  .871
          .50,  .8,  .761
          .60,  .7,  .681
          .70,  .6,  .620
          .80,  .6,  .572
          """)
  @Outside(
      source = "FAO-29 rev. 1, table 3 (from memory; 3 decimals computed apart)",
      oneFact = true)
  void concentrationFactors(double fraction, double printed, double exact) {
    assertEquals(exact, Leaching.concentrationFactor(fraction), 0.001);
    assertEquals(printed, Leaching.concentrationFactor(fraction), 0.0501);
  }

  @Test
  @Outside(source = "FAO-29 rev. 1, chapter 2, profile at leaching fraction .15 (computed apart)")
  void saltRisesWithDepth() {
    double[] profile = Leaching.profile(0.15);
    double[] expected = {1, 1.515, 2.469, 4.255, 6.667};
    for (int depth = 0; depth < expected.length; depth++) {
      assertEquals(expected[depth], profile[depth], 0.001);
    }
  }

  @ParameterizedTest(name = "grape at {0} mS/cm")
  @CsvSource({
    "1.5, 100, 0.01",
    "2.5, 90.40, 0.01",
    "4.1, 75.04, 0.01",
    "6.7, 50.08, 0.01",
    "12, 0, 0.01",
    "1, 100, 0.01",
    "11.917, 0, 0.01"
  })
  @Outside(
      source = "FAO-29 rev. 1, table 4, grape: threshold 1.5, slope 9.6 % (from memory)",
      oneFact = true)
  void grapeUnderSalt(double ec, double yieldPct, double within) {
    assertEquals(yieldPct, new SaltTolerance(1.5, 9.6).yieldPct(ec), within);
  }

  @Test
  @Outside(source = "USSL SALTT42C: bean threshold 1.0, slope 19 %")
  void beanUnderSalt() {
    assertEquals(81, new SaltTolerance(1.0, 19.0).yieldPct(2), 1e-12);
  }

  @Property
  void yieldAndSaltAreInverse(@ForAll @DoubleRange(min = 0, max = 99.9) double yieldPct) {
    SaltTolerance grape = new SaltTolerance(1.5, 9.6);
    assertEquals(yieldPct, grape.yieldPct(grape.ecMsPerCmAt(yieldPct)), 1e-9);
  }

  @Property
  void moreLeachingLeavesLessSalt(@ForAll @DoubleRange(min = 0.01, max = 0.98) double fraction) {
    assertTrue(
        Leaching.concentrationFactor(fraction) > Leaching.concentrationFactor(fraction + 0.01));
  }

  @ParameterizedTest(name = "{0} mS/cm by {1}")
  @CsvSource(
      textBlock =
          """
          1.5,  POUR_THROUGH, LOW
          1.5,  SATURATED,    LOW
          1.5,  ONE_TO_TWO,   HIGH
          6.55, POUR_THROUGH, HIGH
          6.6,  POUR_THROUGH, VERY_HIGH
          7.8,  POUR_THROUGH, VERY_HIGH
          7.81, POUR_THROUGH, EXTREME
          0.3,  ONE_TO_TWO,   LOW
          2.3,  ONE_TO_TWO,   VERY_HIGH
          0,    SATURATED,    VERY_LOW
          """)
  @Outside(source = "UMass root-medium EC table, NC State HIL 590")
  void bandsOfARootMedium(double ec, RootMediumSalt.Extract extract, RootMediumSalt band) {
    assertEquals(band, RootMediumSalt.of(ec, extract));
  }

  @Test
  @Outside(source = "extension texts: EC of a feed is the water's and the fertiliser's together")
  void feedAddsToTheWatersConductivity() {
    // 50 mg N per L of a feed that gives .65 mS/cm per 100 mg N per L: 20 % N, 1.3 per g per L.
    assertEquals(0.625, Conductivity.ofFeed(0.30, 0.25, 1.3), 1e-12);
    double gPerL = Conductivity.feedGPerL(0.625, 0.30, 1.3);
    assertEquals(50, new Analysis(20, 0, 0).elementsMg(gPerL).nMg(), 1e-9);
  }

  @ParameterizedTest(name = "{1} per C")
  @CsvSource({"1.33333, .02", "1.32597, .019"})
  @Outside(source = "PMC6002086 table 1 (1.9 % per C) and common meters (2 %), 25 C reference")
  void aColdReadingIsBroughtTo25C(double at25, double perC) {
    assertEquals(at25, Conductivity.at25C(1.20, 20, perC), 1e-5);
  }

  @ParameterizedTest(name = "scale {0}")
  @CsvSource({"640, 960", "500, 750", "700, 1050"})
  @Outside(source = "FAO-29 rev. 1 (640 mg/L per dS/m); scales of meters from memory")
  void dissolvedSolids(double scale, double mgPerL) {
    assertEquals(mgPerL, Conductivity.dissolvedMgPerL(1.5, scale), 1e-9);
  }

  @Test
  void saltThatCannotBeIsRefused() {
    RootMediumSalt.Extract any = RootMediumSalt.Extract.SATURATED;
    assertThrows(IllegalArgumentException.class, () -> RootMediumSalt.of(-0.1, any));
    assertThrows(IllegalArgumentException.class, () -> RootMediumSalt.of(Double.NaN, any));
    assertThrows(IllegalArgumentException.class, () -> Leaching.profile(0));
    assertThrows(IllegalArgumentException.class, () -> Leaching.applied(800, 1));
    assertThrows(IllegalArgumentException.class, () -> Leaching.requirement(Double.NaN, 2));
    assertThrows(IllegalArgumentException.class, () -> new SaltTolerance(1.5, 0));
    assertThrows(IllegalArgumentException.class, () -> Conductivity.at25C(1, Double.NaN, 0.02));
    assertThrows(IllegalArgumentException.class, () -> Conductivity.feedGPerL(0.2, 0.3, 1.2));
  }
}
