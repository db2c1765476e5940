package dev.cupwarden.core.substrate;

import static dev.cupwarden.core.substrate.NistCurvesTest.BOXBOD_X;
import static dev.cupwarden.core.substrate.NistCurvesTest.BOXBOD_Y;
import static dev.cupwarden.core.substrate.NistCurvesTest.MISRA1A_X;
import static dev.cupwarden.core.substrate.NistCurvesTest.MISRA1A_Y;
import static dev.cupwarden.core.substrate.NistCurvesTest.assertRelative;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DryDownTest {
  private static final double[] EIGHT_HOURLY =
      IntStream.rangeClosed(0, 12).mapToDouble(i -> 8 * i).toArray();
  private static final double[] CLEAN = {
    420, 387.8, 359.9, 335.8, 314.9, 296.8, 281.2, 267.6, 255.8, 245.7, 236.9, 229.2, 222.6
  };
  private static final double[] NOISY = {
    420.3, 387.6, 360.0, 335.4, 315.1, 296.8, 281.1, 268.0, 255.5, 245.8, 237.1, 229.0, 222.5
  };

  /** A fit with what it says of the asymptote. */
  private record Found(ExponentialDryDown curve, DryDownFit.Errors errors, boolean identified) {
    static Found of(DryDownFit fit) {
      if (fit instanceof DryDownFit.Identified clear) {
        return new Found(clear.curve(), clear.errors(), true);
      }
      DryDownFit.AsymptoteUnclear unclear =
          assertInstanceOf(DryDownFit.AsymptoteUnclear.class, fit);
      return new Found(unclear.curve(), unclear.errors(), false);
    }

    double amplitudeAtZeroG() {
      return curve.massG(0) - curve.asymptoteG();
    }
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          BoxBOD,   57.3302351865, 164.406796171, .227804139183, 251.041446709, 9.14770365918, true
          Misra1a, -148.870219975, 248.592201208, .000522289802813, .053739250537, .0698955392887, \
          false
          clean,    179.97085808,  240.008807482, .0179952040482, .0106088951546, .0325712989526, \
          true
          noisy,    180.071053206, 239.990203823, .0180191142399, .76960123047, .277416875923, true
          """)
  @Outside(source = "variable projection in 50 digits (mpmath) of c + A exp(-k t), computed apart")
  void threeFiguresOfADryDown(
      String data, double c, double amplitude, double k, double rss, double rsd, boolean clear) {
    Found found = Found.of(ExponentialFit.fit(points(data)));
    assertRelative(c, found.curve().asymptoteG(), 1e-6);
    assertRelative(amplitude, found.amplitudeAtZeroG(), 1e-6);
    assertRelative(k, found.curve().ratePerTime(), 1e-6);
    assertRelative(rss, found.errors().rssG2(), 1e-6);
    assertRelative(rsd, found.errors().rsdG(), 1e-5);
    assertEquals(clear, found.identified());
  }

  private static List<DryDownPoint> points(String data) {
    return switch (data) {
      case "BoxBOD" -> points(BOXBOD_X, lost(300, BOXBOD_Y));
      case "Misra1a" -> points(MISRA1A_X, lost(100, MISRA1A_Y));
      case "clean" -> points(EIGHT_HOURLY, CLEAN);
      default -> points(EIGHT_HOURLY, NOISY);
    };
  }

  @Test
  @Outside(source = "half-life ln 2 / k, computed apart")
  void halfLives() {
    assertEquals(2.772589, new ExponentialDryDown(0, 1, 0.25, 0).halfLife(), 1e-6);
    double k = Math.log(100.0 / 60) / 3;
    assertEquals(0.170275, k, 1e-6);
    assertEquals(60, new ExponentialDryDown(0, 100, k, 0).massG(3), 1e-9);
  }

  @Test
  void theErrorsTheFitNamesAreThoseOfRepeatedWeighing() {
    Random random = new Random(7);
    int n = 400;
    double[] ends = new double[n];
    double named = 0;
    for (int run = 0; run < n; run++) {
      List<DryDownPoint> points = new ArrayList<>();
      for (int t = 0; t <= 160; t += 4) {
        double grossG = 180 + 240 * Math.exp(-0.018 * t) + 0.3 * random.nextGaussian();
        points.add(new DryDownPoint(t, grossG));
      }
      Found found = Found.of(ExponentialFit.fit(points));
      ends[run] = found.curve().asymptoteG();
      named += found.errors().asymptoteG() / n;
    }
    double mean = Arrays.stream(ends).average().orElseThrow();
    double sd = Math.sqrt(Arrays.stream(ends).map(e -> (e - mean) * (e - mean)).sum() / (n - 1));
    assertEquals(sd, named, 0.15 * sd);
    assertEquals(180, mean, 5 * sd / Math.sqrt(n));
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      textBlock =
          """
          TOO_FEW,          0 400 8 390
          TOO_FEW,          0 400
          NOT_FALLING,      0 400 8 400 16 400 24 400 32 400
          NOT_FALLING,      0 400.1 8 400.1 16 400.1 24 400.1 32 400.1 40 400.1 48 400.1
          NOT_FALLING,      0 400 8 401 16 402 24 403 32 404
          NOT_FALLING,      0 401 8 401 16 402 24 399 32 400 40 401 48 400 56 400 64 400
          NO_CURVE,         0 400.1 8 399.9 16 400.1 24 399.9 32 400.1 40 399.8
          NOT_FINITE,       0 400 8 NaN 16 380 24 370 32 360
          NOT_FINITE,       0 400 NaN 390 16 380 24 370 32 360
          TIMES_NOT_RISING, 0 400 8 390 8 390 16 380 24 372
          TIMES_NOT_RISING, 0 400 16 390 8 395 24 380 32 372
          """)
  void weighingsThatTellNothingAreRefusedNotThrown(Refusal why, String timesAndMasses) {
    double[] figures =
        Arrays.stream(timesAndMasses.split(" ")).mapToDouble(Double::parseDouble).toArray();
    List<DryDownPoint> points = new ArrayList<>();
    for (int i = 0; i < figures.length; i += 2) {
      points.add(new DryDownPoint(figures[i], figures[i + 1]));
    }
    assertEquals(new DryDownFit.Refused(why), ExponentialFit.fit(points));
  }

  @Test
  void nothingWeighedIsRefusedToo() {
    assertEquals(new DryDownFit.Refused(Refusal.TOO_FEW), ExponentialFit.fit(List.of()));
  }

  /** Half-lives of 10 h: 400, 300, 250 and 225 g, tending to 200 g. */
  @Test
  void fourWeighingsAreEnough() {
    List<DryDownPoint> four =
        points(new double[] {0, 10, 20, 30}, new double[] {400, 300, 250, 225});
    assertEquals(200, Found.of(ExponentialFit.fit(four)).curve().asymptoteG(), 1e-4);
    List<DryDownPoint> three = four.subList(1, 4);
    assertEquals(new DryDownFit.Refused(Refusal.TOO_FEW), ExponentialFit.fit(three));
  }

  /** The same cup in days of 24 h: its rate, and what that errs by, are 24 times as much. */
  @Test
  void errorOfTheRateIsInTheTimeOfTheWeighings() {
    List<DryDownPoint> days =
        points("noisy").stream().map(p -> new DryDownPoint(p.time() / 24, p.grossG())).toList();
    DryDownFit.Errors inHours = Found.of(ExponentialFit.fit(points("noisy"))).errors();
    DryDownFit.Errors inDays = Found.of(ExponentialFit.fit(days)).errors();
    assertRelative(24 * inHours.ratePerTime(), inDays.ratePerTime(), 1e-6);
    assertRelative(inHours.asymptoteG(), inDays.asymptoteG(), 1e-6);
  }

  @Test
  void aStraightLineHasNoEnd() {
    List<DryDownPoint> even = new ArrayList<>();
    Random random = new Random(3);
    for (int t = 0; t < 60; t++) {
      even.add(new DryDownPoint(t, 400 - 1.2 * t + 0.05 * random.nextGaussian()));
    }
    assertTrue(!(ExponentialFit.fit(even) instanceof DryDownFit.Identified));
  }

  @Property(tries = 200)
  void anyCupWithoutNoiseIsFoundAgain(
      @ForAll @DoubleRange(min = 50, max = 500) double endG,
      @ForAll @DoubleRange(min = 20, max = 400) double amplitudeG,
      @ForAll @DoubleRange(min = 0.02, max = 0.2) double k,
      @ForAll @DoubleRange(min = -1000, max = 1000) double from) {
    List<DryDownPoint> points = new ArrayList<>();
    for (int t = 0; t <= 96; t += 4) {
      points.add(new DryDownPoint(from + t, endG + amplitudeG * Math.exp(-k * t)));
    }
    Found found = Found.of(ExponentialFit.fit(points));
    assertEquals(endG, found.curve().asymptoteG(), 1e-5 * amplitudeG);
    assertEquals(k, found.curve().ratePerTime(), 1e-5 * k);
    assertTrue(found.identified());
  }

  @Test
  void refusalsSpeakToAPerson() {
    for (Refusal why : Refusal.values()) {
      assertTrue(why.sentence().length() > 10);
    }
    assertThrows(IllegalArgumentException.class, () -> new ExponentialDryDown(1, 0, 1, 0));
    assertThrows(IllegalArgumentException.class, () -> new ExponentialDryDown(Double.NaN, 1, 1, 0));
  }

  static List<DryDownPoint> points(double[] time, double[] grossG) {
    return IntStream.range(0, time.length)
        .mapToObj(i -> new DryDownPoint(time[i], grossG[i]))
        .toList();
  }

  private static double[] lost(double fromG, double[] lossG) {
    return Arrays.stream(lossG).map(loss -> fromG - loss).toArray();
  }
}
