package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.hipparchus.analysis.integration.RombergIntegrator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ContainerCapacityTest {
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          S1, .873697, .841085, .816962, .792651, .757556, .705272
          S2, .755638, .699303, .668139, .641249, .607275, .562928
          S3, .586526, .502257, .462750, .431577, .395307, .352214
          """)
  @Outside(source = "Milks et al. 1989 with van Genuchten 1980, cylinders, computed apart (mpmath)")
  void aCylinderKeepsLessTheTallerItIs(
      String mix, double at5, double at8, double at10, double at12, double at15, double at20) {
    double[] depths = {5, 8, 10, 12, 15, 20};
    double[] expected = {at5, at8, at10, at12, at15, at20};
    for (int i = 0; i < depths.length; i++) {
      TaperedCup cylinder = new TaperedCup(4, 4, depths[i]);
      assertEquals(
          expected[i],
          ContainerCapacity.theta(ExampleCups.curve(mix), cylinder),
          2e-6,
          "depth " + depths[i]);
    }
  }

  @ParameterizedTest(name = "cup {0}, {2}")
  @CsvSource(
      textBlock =
          """
          A,          248.7094, S1, .830247, 206.49,  17.35
          A,          248.7094, S2, .679184, 168.92,  42.48
          A,          248.7094, S3, .470141, 116.93,  82.04
          B,          492.4446, S1, .788190, 388.14,  55.06
          B,          492.4446, S2, .630476, 310.47, 108.10
          B,          492.4446, S3, .413380, 203.57, 190.39
          C,          610.2544, S1, .775444, 473.22,  76.01
          C,          610.2544, S2, .618156, 377.23, 141.48
          C,          610.2544, S3, .400680, 244.52, 243.69
          B inverted, 492.4446, S1, .821151, 404.37,  38.83
          B inverted, 492.4446, S2, .678304, 334.03,  84.55
          B inverted, 492.4446, S3, .480382, 236.56, 157.39
          """)
  @Outside(source = "Milks et al. 1989 with van Genuchten 1980, tapered cups, computed apart")
  void aTaperedCupKeeps(
      String name, double volumeMl, String mix, double theta, double waterMl, double airMl) {
    TaperedCup cup = ExampleCups.cup(name);
    VanGenuchten curve = ExampleCups.curve(mix);
    double found = ContainerCapacity.theta(curve, cup);
    assertEquals(volumeMl, cup.volumeMl(), 1e-4);
    assertEquals(theta, found, 2e-6);
    assertEquals(waterMl, found * cup.volumeMl(), 0.01);
    assertEquals(airMl, (curve.saturated() - found) * cup.volumeMl(), 0.01);
  }

  @ParameterizedTest(name = "to {0} of its height")
  @CsvSource({"0.5, 197.6258", "0.8, 361.6099", "0.9, 424.7724", "1, 492.4446", "0, 0"})
  @Outside(source = "volume of a frustum, computed apart")
  void aCupFilledInPart(double part, double volumeMl) {
    assertEquals(volumeMl, ExampleCups.CUP_B.filledMl(part * 11), 0.01);
  }

  @Test
  @Outside(
      source = "Bilderback and Fonteno 1987, J. Environ. Hort. 5(4):180: one mix, two containers")
  void aShortContainerTradesAirForWater() {
    for (VanGenuchten mix : new VanGenuchten[] {ExampleCups.S1, ExampleCups.S2, ExampleCups.S3}) {
      double tallTheta = ContainerCapacity.theta(mix, new TaperedCup(7, 8, 15));
      double cellTheta = ContainerCapacity.theta(mix, new TaperedCup(1.5, 2.5, 5));
      assertTrue(cellTheta > tallTheta);
    }
  }

  @Test
  @Outside(source = "Hipparchus RombergIntegrator over the height, 300 random mixes and cups")
  void quadratureByAnotherRuleAgreesToATenthOfAMilliliter() {
    Random random = new Random(1989);
    RombergIntegrator romberg = new RombergIntegrator(1e-9, 1e-9, 4, 24);
    for (int i = 0; i < 300; i++) {
      VanGenuchten mix =
          new VanGenuchten(
              random.nextDouble(0.6, 0.95),
              random.nextDouble(0, 0.3),
              random.nextDouble(0.01, 1),
              random.nextDouble(1.2, 4));
      TaperedCup cup =
          new TaperedCup(
              random.nextDouble(1.5, 6), random.nextDouble(1.5, 6), random.nextDouble(3, 25));
      double heldMl =
          romberg.integrate(
              2_000_000_000,
              z -> Math.PI * cup.radiusCm(z) * cup.radiusCm(z) * mix.theta(z),
              0,
              cup.depthCm());
      assertEquals(
          heldMl / cup.volumeMl(), ContainerCapacity.theta(mix, cup), 2e-6, mix + " " + cup);
    }
  }

  @ParameterizedTest(name = "{0} n {1}")
  @CsvSource({"S1, 2", "S2, 1.6", "S3, 1.8"})
  @Outside(source = "hypergeometric mean of a cylinder, thr + (ths - thr) 2F1(m, 1/n; 1 + 1/n; -x)")
  void aCylinderByTheHypergeometricSeries(String mix, double n) {
    VanGenuchten curve = ExampleCups.curve(mix);
    for (double depth : new double[] {0.5, 3, 8, 12, 20}) {
      double x = Math.pow(curve.alphaPerCm() * depth, n);
      // By Pfaff's transformation the series converges for any depth.
      double series = hypergeometric(2 / n, 1 / n, 1 + 1 / n, x / (1 + x));
      double mean =
          curve.residual()
              + (curve.saturated() - curve.residual()) * Math.pow(1 + x, -1 / n) * series;
      TaperedCup cylinder = new TaperedCup(4, 4, depth);
      assertEquals(mean, ContainerCapacity.theta(curve, cylinder), 1e-7, "depth " + depth);
    }
  }

  private static double hypergeometric(double a, double b, double c, double z) {
    double term = 1;
    double sum = 1;
    for (int k = 0; k < 5000; k++) {
      term *= (a + k) * (b + k) / ((c + k) * (k + 1)) * z;
      sum += term;
    }
    return sum;
  }

  @Property
  void theClosedFormAgreesWithQuadrature(
      @ForAll @DoubleRange(min = 0.01, max = 2) double alpha,
      @ForAll @DoubleRange(min = 1, max = 10) double base,
      @ForAll @DoubleRange(min = 1, max = 10) double top,
      @ForAll @DoubleRange(min = 2, max = 30) double depth) {
    VanGenuchten mix = new VanGenuchten(0.9, 0.2, alpha, 2);
    TaperedCup cup = new TaperedCup(base, top, depth);
    double byQuadrature = 0.2 + 0.7 * ContainerCapacity.effectiveMl(mix, cup) / cup.volumeMl();
    assertEquals(byQuadrature, ContainerCapacity.theta(mix, cup), 1e-7);
  }

  @ParameterizedTest(name = "layers of {0} mm")
  @CsvSource({"1, 2e-6", "5, 5e-5", "10, 2e-4"})
  void thinLayersComeToTheSame(double layerMm, double within) {
    TaperedCup cup = ExampleCups.CUP_B;
    double layerCm = layerMm / 10;
    double heldMl = 0;
    for (double low = 0; low < cup.depthCm() - 1e-9; low += layerCm) {
      double top = Math.min(cup.depthCm(), low + layerCm);
      heldMl += ExampleCups.S1.theta((low + top) / 2) * (cup.filledMl(top) - cup.filledMl(low));
    }
    assertEquals(heldMl / cup.volumeMl(), ContainerCapacity.theta(ExampleCups.S1, cup), within);
  }

  @Property
  void capacityFallsWithHeight(
      @ForAll @DoubleRange(min = 0.02, max = 1) double alpha,
      @ForAll @DoubleRange(min = 1.1, max = 4) double n,
      @ForAll @DoubleRange(min = 2, max = 30) double depth) {
    VanGenuchten mix = new VanGenuchten(0.85, 0.1, alpha, n);
    double low = ContainerCapacity.theta(mix, new TaperedCup(3, 4, depth));
    double high = ContainerCapacity.theta(mix, new TaperedCup(3, 4, depth * 1.1));
    assertTrue(high < low);
  }

  @Property
  void aWideTopKeepsLessThanACylinderAndANarrowTopMore(
      @ForAll @DoubleRange(min = 0.02, max = 1) double alpha,
      @ForAll @DoubleRange(min = 1.1, max = 4) double n,
      @ForAll @DoubleRange(min = 1.1, max = 3) double taper) {
    VanGenuchten mix = new VanGenuchten(0.85, 0.1, alpha, n);
    double wide = ContainerCapacity.theta(mix, new TaperedCup(3, 3 * taper, 11));
    double straight = ContainerCapacity.theta(mix, new TaperedCup(3, 3, 11));
    double narrow = ContainerCapacity.theta(mix, new TaperedCup(3 * taper, 3, 11));
    assertTrue(wide < straight && straight < narrow);
  }

  @Test
  void aMixThatHardlyDrainsAndACupOfNoHeightStaySaturated() {
    VanGenuchten clay = new VanGenuchten(0.9, 0.2, 1e-6, 2);
    assertEquals(0.9, ContainerCapacity.theta(clay, ExampleCups.CUP_B), 2e-9);
    TaperedCup film = new TaperedCup(3, 4.5, 0.001);
    assertEquals(0.9, ContainerCapacity.theta(ExampleCups.S1, film), 2e-7);
    VanGenuchten never = new VanGenuchten(0.9, 0.2, 0, 2);
    assertEquals(0.9, ContainerCapacity.theta(never, ExampleCups.CUP_B));
  }

  @ParameterizedTest
  @CsvSource({"0, 4, 11", "3, NaN, 11", "3, 4, 0", "3, 4, -1", "3, 4, Infinity"})
  void aShapeThatCannotBeIsRefused(double base, double top, double depth) {
    assertThrows(IllegalArgumentException.class, () -> new TaperedCup(base, top, depth));
  }

  @Test
  void aHeightOutsideOfTheMixIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> ExampleCups.CUP_B.filledMl(11.1));
    assertThrows(IllegalArgumentException.class, () -> ExampleCups.CUP_B.radiusCm(Double.NaN));
  }
}
