package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import java.util.Arrays;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The certified nonlinear regressions of NIST, from both of their starts. */
class NistCurvesTest {
  static final double[] MISRA1A_X = {
    77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0
  };
  static final double[] MISRA1A_Y = {
    10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78
  };
  static final double[] BOXBOD_X = {1, 2, 3, 5, 7, 10};
  static final double[] BOXBOD_Y = {109, 149, 149, 191, 213, 224};
  private static final double[] MGH17_Y = {
    .844, .908, .932, .936, .925, .908, .881, .850, .818, .784, .751, .718, .685, .658, .628, .603,
    .580, .558, .538, .522, .506, .490, .478, .467, .457, .448, .438, .431, .424, .420, .414, .411,
    .406
  };
  private static final double[] LANCZOS3_Y = {
    2.5134, 2.0443, 1.6684, 1.3664, 1.1232, .9269, .7679, .6389, .5338, .4479, .3776, .3197, .2720,
    .2325, .1997, .1723, .1493, .1301, .1138, .1000, .0883, .0783, .0698, .0624
  };

  @ParameterizedTest(name = "start {0}, {1}")
  @CsvSource({"500, .0001", "250, .0005"})
  @Outside(source = "NIST StRD nonlinear regression, Misra1a")
  void misra1a(double start1, double start2) {
    CurveFit fit = saturating(MISRA1A_X, MISRA1A_Y, start1, start2);
    assertParameters(fit, 1e-6, 2.3894212918E+02, 5.5015643181E-04);
    assertErrors(fit, 1e-5, 2.7070075241E+00, 7.2668688436E-06);
    assertRelative(1.2455138894E-01, fit.rss(), 1e-6);
    assertRelative(1.0187876330E-01, fit.rsd(), 1e-5);
  }

  @ParameterizedTest(name = "start {0}, {1}")
  @CsvSource({"100, .75"})
  @Outside(source = "NIST StRD nonlinear regression, BoxBOD (its near start)")
  void boxBod(double start1, double start2) {
    CurveFit fit = saturating(BOXBOD_X, BOXBOD_Y, start1, start2);
    assertParameters(fit, 1e-6, 2.1380940889E+02, 5.4723748542E-01);
    assertErrors(fit, 1e-5, 1.2354515176E+01, 1.0455993237E-01);
    assertRelative(1.1680088766E+03, fit.rss(), 1e-6);
    assertRelative(1.7088072423E+01, fit.rsd(), 1e-5);
  }

  @ParameterizedTest(name = "start {0}, {1}, {2}, {3}, {4}")
  @CsvSource({"50, 150, -100, 1, 2", ".5, 1.5, -1, .01, .02"})
  @Outside(source = "NIST StRD nonlinear regression, MGH17")
  void mgh17(double s1, double s2, double s3, double s4, double s5) {
    double[] x = IntStream.rangeClosed(0, 32).mapToDouble(i -> 10 * i).toArray();
    CurveFit fit =
        CurveFit.of(NistCurvesTest::twoRates, x, MGH17_Y, new double[] {s1, s2, s3, s4, s5})
            .orElseThrow();
    assertParameters(
        fit,
        1e-5,
        3.7541005211E-01,
        1.9358469127E+00,
        -1.4646871366E+00,
        1.2867534640E-02,
        2.2122699662E-02);
    assertErrors(
        fit,
        1e-5,
        2.0723153551E-03,
        2.2031669222E-01,
        2.2175707739E-01,
        4.4861358114E-04,
        8.9471996575E-04);
    assertRelative(5.4648946975E-05, fit.rss(), 1e-5);
  }

  @ParameterizedTest(name = "start {0}, {1}, {2}, {3}, {4}, {5}")
  @CsvSource({"1.2, .3, 5.6, 5.5, 6.5, 7.6", ".5, .7, 3.6, 4.2, 4, 6.3"})
  @Outside(source = "NIST StRD nonlinear regression, Lanczos3 (starts from memory)")
  void lanczos3(double s1, double s2, double s3, double s4, double s5, double s6) {
    double[] x = IntStream.range(0, 24).mapToDouble(i -> 0.05 * i).toArray();
    CurveFit fit =
        CurveFit.of(
                NistCurvesTest::threeRates, x, LANCZOS3_Y, new double[] {s1, s2, s3, s4, s5, s6})
            .orElseThrow();
    double[][] terms = new double[3][];
    for (int term = 0; term < 3; term++) {
      terms[term] = new double[] {fit.parameter(2 * term), fit.parameter(2 * term + 1)};
    }
    Arrays.sort(terms, (one, other) -> Double.compare(one[1], other[1]));
    double[] certified = {
      8.6816414977E-02,
      9.5498101505E-01,
      8.4400777463E-01,
      2.9515951832E+00,
      1.5825685901E+00,
      4.9863565084E+00
    };
    for (int i = 0; i < certified.length; i++) {
      assertRelative(certified[i], terms[i / 2][i % 2], 1e-4);
    }
    assertRelative(1.6117193594E-08, fit.rss(), 1e-4);
  }

  @ParameterizedTest(name = "start {0}, {1}")
  @CsvSource({"1, 5", ".7, 4"})
  @Outside(source = "NIST StRD nonlinear regression, DanWood (starts from memory)")
  void danWood(double start1, double start2) {
    double[] x = {1.309, 1.471, 1.490, 1.565, 1.611, 1.680};
    double[] y = {2.138, 3.421, 3.597, 4.340, 4.882, 5.660};
    CurveFit fit =
        CurveFit.of(NistCurvesTest::power, x, y, new double[] {start1, start2}).orElseThrow();
    assertParameters(fit, 1e-6, 7.6886226176E-01, 3.8604055871E+00);
    assertRelative(4.3173084083E-03, fit.rss(), 1e-6);
  }

  private static CurveFit saturating(double[] x, double[] y, double start1, double start2) {
    return CurveFit.of(
            (at, p, slopes) -> {
              double decay = Math.exp(-p[1] * at);
              slopes[0] = 1 - decay;
              slopes[1] = p[0] * at * decay;
              return p[0] * (1 - decay);
            },
            x,
            y,
            new double[] {start1, start2})
        .orElseThrow();
  }

  private static double twoRates(double x, double[] p, double[] slopes) {
    double slow = Math.exp(-x * p[3]);
    double fast = Math.exp(-x * p[4]);
    slopes[0] = 1;
    slopes[1] = slow;
    slopes[2] = fast;
    slopes[3] = -x * p[1] * slow;
    slopes[4] = -x * p[2] * fast;
    return p[0] + p[1] * slow + p[2] * fast;
  }

  private static double threeRates(double x, double[] p, double[] slopes) {
    double sum = 0;
    for (int i = 0; i < 6; i += 2) {
      double decay = Math.exp(-x * p[i + 1]);
      slopes[i] = decay;
      slopes[i + 1] = -x * p[i] * decay;
      sum += p[i] * decay;
    }
    return sum;
  }

  private static double power(double x, double[] p, double[] slopes) {
    double raised = Math.pow(x, p[1]);
    slopes[0] = raised;
    slopes[1] = p[0] * raised * Math.log(x);
    return p[0] * raised;
  }

  private static void assertParameters(CurveFit fit, double relative, double... expected) {
    for (int i = 0; i < expected.length; i++) {
      assertRelative(expected[i], fit.parameter(i), relative);
    }
  }

  private static void assertErrors(CurveFit fit, double relative, double... expected) {
    for (int i = 0; i < expected.length; i++) {
      assertRelative(expected[i], fit.standardError(i), relative);
    }
  }

  static void assertRelative(double expected, double actual, double relative) {
    assertEquals(expected, actual, relative * Math.abs(expected));
    assertTrue(Double.isFinite(actual));
  }
}
