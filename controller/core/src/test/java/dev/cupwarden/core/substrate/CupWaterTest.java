package dev.cupwarden.core.substrate;

import static dev.cupwarden.core.substrate.ExampleCups.COIR_PERLITE;
import static dev.cupwarden.core.substrate.ExampleCups.SHORT;
import static dev.cupwarden.core.substrate.ExampleCups.TALL;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Vessel;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CupWaterTest {
  private static CupWater a1() {
    return CupWater.of(TALL, COIR_PERLITE, 14);
  }

  private static CupWater a2() {
    return CupWater.of(SHORT, COIR_PERLITE, 9);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          volume mL,                    515.590, 282.311
          water at capacity mL,         323.313, 191.800
          air at capacity %,            19.2927, 14.0608
          available mL,                 271.754, 163.569
          dry gross g,                   78.559,  46.231
          gross at capacity g,          401.872, 238.031
          gross at depletion .30,       320.346, 188.961
          gross at depletion .50,       265.995, 156.247
          gross at depletion .60,       238.819, 139.890
          gross at depletion .85,       170.881,  98.998
          gross at the wet line g,      449.784, 249.495
          """)
  @Outside(source = "computed apart by another program's quadrature: two cups of the example bench")
  void theExampleCupsHoldWhatQuadratureSays(String figure, double a1, double a2) {
    assertEquals(a1, figure(a1(), figure), 0.01);
    assertEquals(a2, figure(a2(), figure), 0.01);
  }

  private static double figure(CupWater cup, String figure) {
    return switch (figure) {
      case "volume mL" -> cup.volumeMl();
      case "water at capacity mL" -> cup.capacityMl();
      case "air at capacity %" -> 100 * cup.airAtCapacity();
      case "available mL" -> cup.availableMl();
      case "dry gross g" -> cup.dryGrossG();
      case "gross at capacity g" -> cup.capacityGrossG();
      case "gross at the wet line g" -> cup.wetLineGrossG();
      default -> grossAt(cup, Double.parseDouble(figure.replace("gross at depletion ", "")));
    };
  }

  private static double grossAt(CupWater cup, double depletion) {
    return cup.capacityGrossG() - depletion * cup.availableMl();
  }

  @Test
  void theWetLineOfBothExampleCupsLiesAboveCapacity() {
    assertTrue(a1().wetLineDepletion() < 0);
    assertTrue(a2().wetLineDepletion() < 0);
  }

  /**
   * A twentieth of 515.590 mL drier than 449.784 g are 424.0045 g: (401.872 - 424.0045) / 271.754.
   * There 345.4455 mL of water leave 0.15 of the volume to air, of pores of 0.82.
   */
  @Test
  void airIsSafeATwentiethAboveTheLeast() {
    assertEquals(-0.081443, a1().safeAirDepletion(), 1e-4);
    assertEquals(0.15, a1().safeAir(), 1e-12);
    double waterMl = grossAt(a1(), a1().safeAirDepletion()) - a1().dryGrossG();
    assertEquals(a1().safeAir(), 0.82 - waterMl / a1().volumeMl(), 1e-12);
  }

  @Test
  void aCupThatIsWiderBelowIsACup() {
    CupWater upended = CupWater.of(new Vessel("upended", 60, 92, 112, 13), COIR_PERLITE, 14);
    assertEquals(a1().volumeMl(), upended.volumeMl(), 1e-9);
    assertTrue(upended.capacityMl() > a1().capacityMl());
  }

  @Property
  void depletionAndMassAreInverse(@ForAll @DoubleRange(min = -1, max = 1.2) double depletion) {
    assertEquals(depletion, a1().depletionAt(grossAt(a1(), depletion)), 1e-12);
  }

  @Property
  void waterAndAirFillThePores(
      @ForAll @DoubleRange(min = 20, max = 300) double topMm,
      @ForAll @DoubleRange(min = 20, max = 300) double baseMm,
      @ForAll @DoubleRange(min = 10, max = 300) double depthMm) {
    CupWater cup = CupWater.of(new Vessel("any", topMm, baseMm, depthMm, 10), COIR_PERLITE, 5);
    assertEquals(
        COIR_PERLITE.saturated(), cup.capacityMl() / cup.volumeMl() + cup.airAtCapacity(), 1e-12);
    assertTrue(cup.capacityGrossG() <= cup.saturatedGrossG());
    assertTrue(cup.availableMl() < cup.capacityMl());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          depthCm,     92, 60,   0, 13,  14
          depthCm,     92, 60, NaN, 13,  14
          topRadiusCm,  0, 60, 112, 13,  14
          baseRadiusCm, 92, -5, 112, 13, 14
          emptyG,      92, 60, 112, NaN, 14
          cuttingG,    92, 60, 112, 13,  -1
          cuttingG,    92, 60, 112, 13, NaN
          """)
  void aVesselOutOfRangeIsRefusedByName(
      String argument, double topMm, double baseMm, double depthMm, double emptyG, double cutting) {
    Vessel vessel = new Vessel("odd", topMm, baseMm, depthMm, emptyG);
    String said =
        assertThrows(
                IllegalArgumentException.class, () -> CupWater.of(vessel, COIR_PERLITE, cutting))
            .getMessage();
    assertTrue(said.startsWith(argument + " must be "), said);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          saturated,        1.2, .12, .22, 1.55, .10, .10, .1
          saturated,        NaN, .12, .22, 1.55, .10, .10, .1
          residual,         .82, .82, .22, 1.55, .10, .10, .1
          residual,         .82, -.1, .22, 1.55, .10, .10, .1
          alphaPerCm,       .82, .12, -.2, 1.55, .10, .10, .1
          alphaPerCm,       .82, .12, Infinity, 1.55, .10, .10, .1
          n,                .82, .12, .22, 1.0,  .10, .10, .1
          n,                .82, .12, .22, NaN,  .10, .10, .1
          unavailable,      .82, .12, .22, 1.55, .70, .10, .1
          unavailable,      .82, .12, .22, 1.55, NaN, .10, .1
          leastAir,         .82, .12, .22, 1.55, .10, .90, .1
          dryDensityGPerMl, .82, .12, .22, 1.55, .10, .10, NaN
          """)
  void aMixOutOfRangeIsRefusedByName(
      String argument,
      double saturated,
      double residual,
      double alphaPerCm,
      double n,
      double unavailable,
      double leastAir,
      double dryDensity) {
    Mix mix = new Mix("odd", saturated, residual, alphaPerCm, n, unavailable, leastAir, dryDensity);
    String said =
        assertThrows(IllegalArgumentException.class, () -> CupWater.of(TALL, mix, 14)).getMessage();
    assertTrue(said.startsWith(argument + " must be "), said);
  }
}
