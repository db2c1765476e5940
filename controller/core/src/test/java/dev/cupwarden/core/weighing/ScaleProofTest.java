package dev.cupwarden.core.weighing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.weighing.ScaleLine.Sample;
import dev.cupwarden.core.weighing.ScaleProof.Finding;
import dev.cupwarden.core.weighing.ScaleProof.Verdict;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScaleProofTest {
  private static final ScaleLine LINE = new ScaleLine(84_213, 2147.485);
  private static final ScaleProof TENTHS = new ScaleProof(LINE, new ClassThree(0.1));

  @ParameterizedTest(name = "{0} g by {1} g")
  @CsvSource(
      textBlock =
          """
          0,    0.1, 0.05
          50,   0.1, 0.05
          50.1, 0.1, 0.10
          200,  0.1, 0.10
          201,  0.1, 0.15
          600,  0.1, 0.15
          1000, 0.1, 0.15
          600,  1,   1.0
          """)
  @Outside(source = "OIML R 76, table 6, class III, initial verification")
  void permissibleErrorsOfClassThree(double loadG, double intervalG, double permissibleG) {
    ClassThree limits = new ClassThree(intervalG);
    assertEquals(permissibleG, limits.permissibleG(loadG), 1e-12);
  }

  @ParameterizedTest(name = "{0} g")
  @CsvSource({"1000, 50", "500, 25", "200, 10", "100, 5", "50, 3"})
  @Outside(source = "OIML R 111, class M1, as quoted in a national law")
  void tolerancesOfWeights(double nominalG, double mg) {
    assertEquals(mg / 1000, TestLoad.classM1(List.of(nominalG)).toleranceG(), 1e-12);
  }

  @Test
  void weightsPutTogetherAddTheirTolerances() {
    TestLoad load = TestLoad.classM1(List.of(500.0, 100.0));
    assertEquals(600, load.massG());
    assertEquals(0.030, load.toleranceG(), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> TestLoad.classM1(List.of(300.0)));
  }

  @Test
  @Outside(source = "two-point calibration of a 24-bit converter's counts, computed apart")
  void twoPointsGiveALine() {
    ScaleLine line =
        ScaleLine.fitted(
            List.of(
                new Sample(TestLoad.NONE, 84_213),
                new Sample(TestLoad.classM1(List.of(200.0)), 513_710)));
    assertEquals(2147.485, line.countsPerG(), 1e-9);
    assertEquals(84_213, line.zeroCounts(), 1e-6);
    assertEquals(100, line.massG(298_961.5), 1e-9);
  }

  @Property
  void countsAndGramsAreInverse(
      @ForAll @DoubleRange(min = -8e6, max = 8e6) double zero,
      @ForAll @DoubleRange(min = 10, max = 5000) double perG,
      @ForAll @DoubleRange(min = 0, max = 1000) double massG) {
    ScaleLine line = new ScaleLine(zero, perG);
    assertEquals(massG, line.massG(line.counts(massG)), 1e-8);
    ScaleLine upsideDown = new ScaleLine(zero, -perG);
    assertEquals(massG, upsideDown.massG(upsideDown.counts(massG)), 1e-8);
  }

  @Test
  void aLineThroughManyLoadsIsThatOfLeastSquares() {
    List<Sample> samples = loaded(0.02, -0.01, -0.01, -0.01, 0.01);
    ScaleLine line = ScaleLine.fitted(samples);
    double sum = 0;
    double leaning = 0;
    for (Sample sample : samples) {
      double off = line.massG(sample.counts()) - sample.load().massG();
      sum += off;
      leaning += off * sample.load().massG();
    }
    assertEquals(0, sum, 1e-8);
    assertEquals(0, leaning, 1e-5);
  }

  @Test
  void aStraightScalePasses() {
    Finding finding = TENTHS.linearity(loaded(0, 0.01, 0.02, 0.03, 0.04));
    assertEquals(Verdict.PASS, finding.verdict());
  }

  @Test
  void aBentScaleFailsAtItsWorstLoad() {
    Finding finding = TENTHS.linearity(loaded(0, 0.01, 0.20, 0.03, 0.04));
    assertEquals(Verdict.FAIL, finding.verdict());
    assertEquals(200, finding.loadG());
    assertEquals(0.20, finding.errorG(), 1e-9);
    assertEquals(0.10, finding.limitG(), 1e-12);
  }

  @Test
  void whatOnlyTheWeightsCouldDecideStaysOpen() {
    assertEquals(
        Verdict.OPEN, TENTHS.linearity(loaded(0, 0, 0.095, 0, 0)).verdict(), "within their grace");
    ScaleProof hundredths = new ScaleProof(LINE, new ClassThree(0.01));
    Sample coarse = new Sample(TestLoad.classM1(List.of(100.0)), LINE.counts(100));
    assertEquals(Verdict.OPEN, hundredths.linearity(List.of(coarse)).verdict(), "too coarse");
  }

  @Test
  void repeatedWeighingsMayDifferByThePermissibleError() {
    TestLoad load = TestLoad.classM1(List.of(500.0));
    assertEquals(Verdict.PASS, TENTHS.repeatability(load, counts(500, 500.1, 500.14)).verdict());
    Finding wide = TENTHS.repeatability(load, counts(499.92, 500, 500.1));
    assertEquals(Verdict.FAIL, wide.verdict());
    assertEquals(0.18, wide.errorG(), 1e-9);
    assertThrows(
        IllegalArgumentException.class, () -> TENTHS.repeatability(load, counts(500, 500)));
  }

  @ParameterizedTest(name = "{0}, {1}, {2} g: {3}")
  @CsvSource({
    "0.02, 0.05, 0.06, PASS, 0.105, 0.06",
    "0.06, 0.11, 0.12, FAIL, 0.105, 0.12",
    "0.02, 0.03, 0.09, FAIL, 0.0225, 0.06"
  })
  @Outside(source = "OIML R 60: creep within 0.7 of the limit in 30 min, 0.15 in its last ten")
  void creepOverHalfAnHour(
      double at10, double at20, double at30, Verdict verdict, double limitG, double errorG) {
    Finding finding = TENTHS.creep(TestLoad.classM1(List.of(500.0)), creep(at10, at20, at30));
    assertEquals(verdict, finding.verdict());
    assertEquals(limitG, finding.limitG(), 1e-12);
    assertEquals(errorG, finding.errorG(), 1e-9);
  }

  @Test
  void creepCannotBeToldInTenMinutes() {
    NavigableMap<Duration, Double> brief =
        new TreeMap<>(
            Map.of(Duration.ZERO, LINE.counts(500), Duration.ofMinutes(10), LINE.counts(500.01)));
    TestLoad load = TestLoad.classM1(List.of(500.0));
    String said =
        assertThrows(IllegalArgumentException.class, () -> TENTHS.creep(load, brief)).getMessage();
    assertTrue(said.startsWith("counts must have readings within 1 min"), said);
    assertThrows(IllegalArgumentException.class, () -> TENTHS.creep(load, new TreeMap<>(Map.of())));
  }

  @Test
  void figuresThatCannotBeAreRefused() {
    assertThrows(IllegalArgumentException.class, () -> new ClassThree(0));
    assertThrows(IllegalArgumentException.class, () -> new ClassThree(0.1).permissibleG(1001));
    assertThrows(IllegalArgumentException.class, () -> new ClassThree(0.1).permissibleG(-1));
    assertThrows(IllegalArgumentException.class, () -> new ScaleLine(0, 0));
    assertThrows(IllegalArgumentException.class, () -> new Sample(TestLoad.NONE, Double.NaN));
    Sample zero = new Sample(TestLoad.NONE, 1);
    assertThrows(IllegalArgumentException.class, () -> ScaleLine.fitted(List.of(zero, zero)));
    assertThrows(IllegalArgumentException.class, () -> TENTHS.linearity(List.of()));
  }

  /** Weights of 0, 50, 200, 500 and 700 g, each shown off by so much. */
  private static List<Sample> loaded(
      double off0, double off50, double off200, double off500, double off700) {
    return List.of(
        new Sample(TestLoad.NONE, LINE.counts(off0)),
        new Sample(TestLoad.classM1(List.of(50.0)), LINE.counts(50 + off50)),
        new Sample(TestLoad.classM1(List.of(200.0)), LINE.counts(200 + off200)),
        new Sample(TestLoad.classM1(List.of(500.0)), LINE.counts(500 + off500)),
        new Sample(TestLoad.classM1(List.of(500.0, 200.0)), LINE.counts(700 + off700)));
  }

  private static List<Double> counts(double... massG) {
    return Arrays.stream(massG).map(LINE::counts).boxed().toList();
  }

  private static NavigableMap<Duration, Double> creep(double at10, double at20, double at30) {
    NavigableMap<Duration, Double> counts = new TreeMap<>();
    counts.put(Duration.ZERO, LINE.counts(500));
    counts.put(Duration.ofMinutes(10), LINE.counts(500 + at10));
    counts.put(Duration.ofMinutes(20), LINE.counts(500 + at20));
    counts.put(Duration.ofMinutes(30), LINE.counts(500 + at30));
    return counts;
  }
}
