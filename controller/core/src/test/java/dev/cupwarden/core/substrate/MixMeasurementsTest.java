package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import java.util.List;
import java.util.OptionalDouble;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MixMeasurementsTest {

  @ParameterizedTest(name = "{0} of 100 gone")
  @CsvSource({"70, 0.6", "50, 1", "100, 0", "120, 0", "-10, 1"})
  @Outside(source = "FAO-56 (Allen et al. 1998), equation 84, computed by hand")
  void stressBeyondReadilyAvailableWater(double depleted, double coefficient) {
    assertEquals(coefficient, WaterStress.coefficient(100, depleted, 0.5), 1e-12);
  }

  @ParameterizedTest(name = "{3}")
  @CsvSource({
    "36, .30, 11, onion on loamy sand",
    "136, .40, 54, tomato on silt",
    "144, .55, 79, maize on silty clay"
  })
  @Outside(source = "FAO-56 (Allen et al. 1998), example 36 (from memory)")
  void readilyAvailableWater(double totalMm, double p, double printedMm, String field) {
    assertEquals(printedMm, WaterStress.readilyAvailable(totalMm, p), 0.5, field);
  }

  @Test
  @Outside(source = "FAO-56 (Allen et al. 1998), table 22 note: p + 0.04 (5 - ETc)")
  void lessGoesWithoutStressUnderAThirstySky() {
    assertEquals(0.58, WaterStress.fractionFor(0.5, 3), 1e-12);
    assertEquals(0.1, WaterStress.fractionFor(0.2, 12), 1e-12, "held at 0.1");
    assertEquals(0.8, WaterStress.fractionFor(0.8, 0), 1e-12, "held at 0.8");
    assertThrows(IllegalArgumentException.class, () -> WaterStress.fractionFor(0.9, 3));
    assertThrows(IllegalArgumentException.class, () -> WaterStress.coefficient(0, 0, 0.5));
  }

  @Test
  void aProbeIsReadBetweenItsPoints() {
    ProbeCurve probe =
        ProbeCurve.through(
            List.of(
                new ProbeCurve.Point(2.8, 0.05),
                new ProbeCurve.Point(1.2, 0.60),
                new ProbeCurve.Point(2.0, 0.30)));
    assertEquals(0.30, probe.theta(2.0).orElseThrow(), 1e-12);
    assertEquals(0.45, probe.theta(1.6).orElseThrow(), 1e-12);
    assertEquals(0.60, probe.theta(1.15).orElseThrow(), 1e-12, "a hair beyond counts as its end");
    assertEquals(OptionalDouble.empty(), probe.theta(0.9));
    assertEquals(OptionalDouble.empty(), probe.theta(Double.NaN));
  }

  /** A twentieth of 2 V is 0.1 V; beyond its points a probe shows what it shows at them. */
  @ParameterizedTest(name = "{0} V: {1}")
  @CsvSource({"0.9, 0.5", "1.0, 0.5", "3.0, 0.25", "3.1, 0.25", "0.899, ", "3.101, "})
  void aProbeSpeaksATwentiethBeyondItsPoints(double raw, Double theta) {
    ProbeCurve probe =
        ProbeCurve.through(List.of(new ProbeCurve.Point(1, 0.5), new ProbeCurve.Point(3, 0.25)));
    OptionalDouble expected = theta == null ? OptionalDouble.empty() : OptionalDouble.of(theta);
    assertEquals(expected, probe.theta(raw));
  }

  /**
   * 0.6 - 0.2 (raw - 1) + 0.02 (raw - 1)², and 0.001 times the cubic contrast -1, 3, -3, 1, which
   * no curve of one bend takes up: its squares are 20e-6, and one degree of freedom is left.
   */
  @Test
  void curveOfLeastSquaresAndWhatItLeaves() {
    ProbeCurve probe =
        ProbeCurve.fitted(
            List.of(
                new ProbeCurve.Point(1, 0.600 - 0.001),
                new ProbeCurve.Point(2, 0.420 + 0.003),
                new ProbeCurve.Point(3, 0.280 - 0.003),
                new ProbeCurve.Point(4, 0.180 + 0.001)));
    assertEquals(0.600, probe.theta(1).orElseThrow(), 1e-9);
    assertEquals(0.505, probe.theta(1.5).orElseThrow(), 1e-9);
    assertEquals(0.180, probe.theta(4).orElseThrow(), 1e-9);
    assertEquals(Math.sqrt(20e-6), probe.residualSd(), 1e-9);
  }

  /**
   * Of five points 0.001 times -1, 2, 0, -2, 1 is left: squares of 10e-6, two degrees of freedom.
   */
  @Test
  void whatACurveLeavesOfFivePoints() {
    ProbeCurve probe =
        ProbeCurve.fitted(
            List.of(
                new ProbeCurve.Point(1, 0.600 - 0.001),
                new ProbeCurve.Point(2, 0.420 + 0.002),
                new ProbeCurve.Point(3, 0.280),
                new ProbeCurve.Point(4, 0.180 - 0.002),
                new ProbeCurve.Point(5, 0.120 + 0.001)));
    assertEquals(Math.sqrt(5e-6), probe.residualSd(), 1e-9);
  }

  /**
   * 0.05 + 0.2 x + 0.3 x² rises from below its first point on; 0.1 + 0.05 x + 0.6 x² falls there.
   */
  @Test
  void curveMustNotTurnATwentiethBeyondItsPoints() {
    double third = 1.0 / 3.0;
    ProbeCurve rising =
        ProbeCurve.fitted(
            List.of(
                new ProbeCurve.Point(1, 0.05),
                new ProbeCurve.Point(2, 0.05 + 0.2 * third + 0.3 * third * third),
                new ProbeCurve.Point(3, 0.05 + 0.4 * third + 1.2 * third * third),
                new ProbeCurve.Point(4, 0.55)));
    assertEquals(0.05, rising.theta(1).orElseThrow(), 1e-9);
    List<ProbeCurve.Point> turning =
        List.of(
            new ProbeCurve.Point(1, 0.1),
            new ProbeCurve.Point(2, 0.1 + 0.05 * third + 0.6 * third * third),
            new ProbeCurve.Point(3, 0.1 + 0.1 * third + 2.4 * third * third),
            new ProbeCurve.Point(4, 0.75));
    String said =
        assertThrows(IllegalArgumentException.class, () -> ProbeCurve.fitted(turning)).getMessage();
    assertTrue(said.endsWith("between readings 1.0 and 4.0"), said);
  }

  @Test
  void manyPointsOfAProbeGiveASmoothCurve() {
    ProbeCurve probe =
        ProbeCurve.fitted(
            List.of(
                new ProbeCurve.Point(1.0, 0.6 + 0.001),
                new ProbeCurve.Point(1.5, 0.42 - 0.001),
                new ProbeCurve.Point(2.0, 0.27),
                new ProbeCurve.Point(2.5, 0.15 + 0.001),
                new ProbeCurve.Point(3.0, 0.06 - 0.001)));
    assertEquals(0.27, probe.theta(2.0).orElseThrow(), 0.002);
    assertTrue(probe.residualSd() > 0 && probe.residualSd() < 0.003);
  }

  @Property
  void aFallingProbeFallsEverywhere(
      @ForAll @DoubleRange(min = 1, max = 3) double raw,
      @ForAll @DoubleRange(min = 0.01, max = 0.1) double more) {
    ProbeCurve probe =
        ProbeCurve.through(
            List.of(
                new ProbeCurve.Point(1, 0.6),
                new ProbeCurve.Point(2, 0.3),
                new ProbeCurve.Point(3.2, 0.05)));
    assertTrue(probe.theta(raw + more).orElseThrow() < probe.theta(raw).orElseThrow());
  }

  @Test
  void aProbeThatTurnsIsRefused() {
    List<ProbeCurve.Point> turning =
        List.of(
            new ProbeCurve.Point(1, 0.1),
            new ProbeCurve.Point(2, 0.5),
            new ProbeCurve.Point(3, 0.45),
            new ProbeCurve.Point(4, 0.1));
    assertThrows(IllegalArgumentException.class, () -> ProbeCurve.through(turning));
    String said =
        assertThrows(IllegalArgumentException.class, () -> ProbeCurve.fitted(turning)).getMessage();
    assertTrue(said.contains("always rise or always fall"), said);
  }

  @Test
  void aProbeOfTooFewOrEqualPointsIsRefused() {
    ProbeCurve.Point one = new ProbeCurve.Point(1, 0.1);
    assertThrows(IllegalArgumentException.class, () -> ProbeCurve.through(List.of(one)));
    assertThrows(
        IllegalArgumentException.class,
        () -> ProbeCurve.through(List.of(one, new ProbeCurve.Point(1, 0.3))));
    assertThrows(
        IllegalArgumentException.class,
        () -> ProbeCurve.through(List.of(one, new ProbeCurve.Point(2, 0.1))));
    assertThrows(IllegalArgumentException.class, () -> new ProbeCurve.Point(Double.NaN, 0.1));
    assertThrows(IllegalArgumentException.class, () -> new ProbeCurve.Point(1, 1.1));
  }
}
