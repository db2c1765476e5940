package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.OpenData;
import dev.cupwarden.core.checks.Outside;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RetentionTest {
  private static final VanGenuchten PUBLISHED = new VanGenuchten(0.625, 0.111, 0.1170, 1.418);

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          S1, .896526, .826099, .694975, .337281, .269653, .205025, .357693, .067629
          S2, .823403, .651831, .523688, .302797, .251249, .326312, .220891, .051547
          S3, .725706, .411040, .288605, .153230, .130602, .511395, .135375, .022628
          """)
  @Outside(source = "van Genuchten 1980, three synthetic curves, computed apart")
  void theCurveOfASyntheticMix(
      String mix,
      double at1,
      double at5,
      double at10,
      double at50,
      double at100,
      double air,
      double easily,
      double buffering) {
    VanGenuchten curve = ExampleCups.curve(mix);
    assertEquals(at1, curve.theta(1), 2e-6);
    assertEquals(at5, curve.theta(5), 2e-6);
    assertEquals(at10, curve.theta(10), 2e-6);
    assertEquals(at50, curve.theta(50), 2e-6);
    assertEquals(at100, curve.theta(100), 2e-6);
    assertEquals(air, curve.saturated() - curve.theta(10), 2e-6);
    assertEquals(easily, curve.theta(10) - curve.theta(50), 2e-6);
    assertEquals(buffering, curve.theta(50) - curve.theta(100), 2e-6);
  }

  @Test
  @Outside(source = "open data retention-sandy-loam (MIT): published parameters, published curve")
  void thePublishedParametersGiveThePublishedCurve() {
    List<List<String>> curve = OpenData.rows("retention-sandy-loam/sl_fitted_curve.csv");
    assertEquals(500, curve.size());
    for (List<String> row : curve) {
      double suctionCm = Math.pow(10, Double.parseDouble(row.get(0)));
      double theta = Double.parseDouble(row.get(1)) / 100;
      assertEquals(theta, PUBLISHED.theta(suctionCm), 0.001, "pF " + row.get(0));
    }
  }

  @ParameterizedTest(name = "pF {0}")
  @CsvSource({"1.8, .3302", "2.5, .2244", "4.2, .1331"})
  @Outside(source = "open data retention-sandy-loam (MIT): field capacity to wilting point")
  void theSandyLoamAtNamedSuctions(double pF, double theta) {
    assertEquals(theta, PUBLISHED.theta(Math.pow(10, pF)), 5e-5);
  }

  @Test
  @Outside(source = "open data retention-sandy-loam (MIT): own fit to the points, by SciPy as well")
  void measuredPointsGiveAFitWithinThePublishedLimits() {
    List<List<String>> rows = OpenData.rows("retention-sandy-loam/sl_retention_points.csv");
    double[] pF = rows.stream().mapToDouble(r -> Double.parseDouble(r.get(0))).toArray();
    double[] theta = rows.stream().mapToDouble(r -> Double.parseDouble(r.get(1)) / 100).toArray();
    CurveFit fit =
        CurveFit.of(RetentionTest::retention, pF, theta, new double[] {0.6, 0.1, 0.1, 1.4})
            .orElseThrow();
    assertEquals(.6201, fit.parameter(0), 0.01 * .6201);
    assertEquals(.1201, fit.parameter(1), 0.01 * .1201);
    assertEquals(.10764, fit.parameter(2), 0.01 * .10764);
    assertEquals(1.4466, fit.parameter(3), 0.01 * 1.4466);
    assertEquals(.02159, Math.sqrt(fit.rss() / theta.length), 0.01 * .02159);
    List<List<String>> limits = OpenData.rows("retention-sandy-loam/sl_fit_parameters.csv");
    int[] parameterOfRow = {2, 3, 1, 0};
    for (int row = 0; row < parameterOfRow.length; row++) {
      double found = fit.parameter(parameterOfRow[row]);
      assertTrue(found > Double.parseDouble(limits.get(row).get(2)), limits.get(row).toString());
      assertTrue(found < Double.parseDouble(limits.get(row).get(3)), limits.get(row).toString());
    }
  }

  private static double retention(double pF, double[] p, double[] slopes) {
    double suctionCm = Math.pow(10, pF);
    for (int i = 0; i < p.length; i++) {
      double[] shifted = p.clone();
      double step = 1e-6 * p[i];
      shifted[i] += step;
      slopes[i] = (thetaOf(shifted, suctionCm) - thetaOf(p, suctionCm)) / step;
    }
    return thetaOf(p, suctionCm);
  }

  private static double thetaOf(double[] p, double suctionCm) {
    return new VanGenuchten(p[0], p[1], p[2], p[3]).theta(suctionCm);
  }

  @Property
  void theDrierThePullTheLessStays(
      @ForAll @DoubleRange(min = 0, max = 5000) double suctionCm,
      @ForAll @DoubleRange(min = 0.01, max = 500) double more,
      @ForAll @DoubleRange(min = 0.01, max = 1) double alpha,
      @ForAll @DoubleRange(min = 1.05, max = 4) double n) {
    VanGenuchten curve = new VanGenuchten(0.85, 0.1, alpha, n);
    double wet = curve.theta(suctionCm);
    double dry = curve.theta(suctionCm + more);
    assertTrue(dry <= wet);
    assertTrue(dry >= 0.1 && wet <= 0.85);
  }

  @Test
  void saturatedAtNoSuction() {
    assertEquals(0.85, ExampleCups.S2.theta(0));
  }

  @Test
  void aSuctionThatCannotBeIsRefused() {
    String said =
        assertThrows(IllegalArgumentException.class, () -> ExampleCups.S1.theta(-1)).getMessage();
    assertTrue(said.startsWith("suctionCm must be from 0 to "), said);
    assertThrows(IllegalArgumentException.class, () -> ExampleCups.S1.theta(Double.NaN));
  }
}
