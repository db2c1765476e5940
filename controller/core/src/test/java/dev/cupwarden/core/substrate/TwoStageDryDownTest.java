package dev.cupwarden.core.substrate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.OpenData;
import dev.cupwarden.core.checks.Outside;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TwoStageDryDownTest {
  private static final double SURFACE_CM2 = 19.6078;

  @ParameterizedTest(name = "day {0}")
  @CsvSource({
    "0, 400",
    "2, 350",
    "4, 300",
    "6, 257.954155",
    "8, 228.535832",
    "10, 207.952640",
    "14, 183.474815",
    "20, 168.040567"
  })
  @Outside(source = "two-stage closed form of continuous rate, computed apart")
  void aCupThroughBothStages(double day, double grossG) {
    TwoStageDryDown cup = TwoStageDryDown.continuous(400, 300, 160, 25);
    assertEquals(grossG, cup.massG(day), 1e-6);
    assertEquals(day, cup.timeAt(grossG).orElseThrow(), 1e-6);
  }

  @Test
  @Outside(source = "two-stage closed form of continuous rate, computed apart")
  void figuresOfTheContinuousCurve() {
    TwoStageDryDown cup = TwoStageDryDown.continuous(400, 300, 160, 25);
    assertEquals(5.6, cup.tau(), 1e-12);
    assertEquals(4, cup.breakAt(), 1e-12);
    assertEquals(11.015473, cup.timeAt(200).orElseThrow(), 1e-6);
    assertEquals(OptionalDouble.empty(), cup.timeAt(160));
  }

  @Test
  void bothStagesAreFoundAgainUnderNoise() {
    TwoStageDryDown truth = new TwoStageDryDown(400, 2.0, 50, 180, 60);
    Random random = new Random(11);
    List<DryDownPoint> points = new ArrayList<>();
    for (int t = 0; t <= 200; t += 2) {
      points.add(new DryDownPoint(t, truth.massG(t) + 0.1 * random.nextGaussian()));
    }
    TwoStageFit.Fitted found = assertInstanceOf(TwoStageFit.Fitted.class, TwoStageFit.fit(points));
    assertEquals(50, found.curve().breakAt(), 4 * found.breakError() + 0.1);
    assertEquals(2.0, found.curve().evenRateG(), 0.01);
    assertEquals(180, found.curve().residualG(), 1.5);
    assertEquals(60, found.curve().tau(), 1);
  }

  @Test
  void aPlainExponentialHasNoBreak() {
    Random random = new Random(5);
    List<DryDownPoint> points = new ArrayList<>();
    for (int t = 0; t <= 200; t += 2) {
      double grossG = 180 + 220 * Math.exp(-0.02 * t) + 0.1 * random.nextGaussian();
      points.add(new DryDownPoint(t, grossG));
    }
    assertInstanceOf(TwoStageFit.Refused.class, TwoStageFit.fit(points));
  }

  @Test
  @Outside(source = "open data sand-evaporation-rate (CC BY 4.0, Iden et al. 2021): totals")
  void theSandLosesWhatItsRatesAddUpTo() {
    List<DryDownPoint> sand = sandLossMm();
    assertEquals(61, sand.size());
    assertEquals(-25.688, sand.get(60).grossG(), 0.01);
    assertEquals(13.9, sand.get(60).time(), 0.05);
  }

  @Test
  @Outside(
      source = "open data sand-evaporation-rate (CC BY 4.0, Iden et al. 2021): break at 2.792 d")
  void theSandsBreakIsFoundWithinTwoReadings() {
    List<DryDownPoint> sand = sandLossMm();
    List<List<String>> rows = OpenData.rows("sand-evaporation-rate/sand_evap_rate.csv");
    double firstMmPerD = mmPerD(rows.get(0));
    assertEquals(10.046, firstMmPerD, 0.001);
    assertEquals(0.101, mmPerD(rows.get(60)), 0.001);
    int half = 0;
    while (mmPerD(rows.get(half)) >= firstMmPerD / 2) {
      half++;
    }
    assertEquals(2.792, sand.get(half).time(), 0.001);
    TwoStageFit.Fitted found = assertInstanceOf(TwoStageFit.Fitted.class, TwoStageFit.fit(sand));
    double at = found.curve().breakAt();
    assertTrue(at > sand.get(half - 2).time() && at < sand.get(half + 2).time(), "at " + at);
  }

  private static double mmPerD(List<String> row) {
    return Double.parseDouble(row.get(1)) * 86_400 * 1000;
  }

  /** Days, and the loss so far as a negative mass in mm of water, by trapezoids. */
  private static List<DryDownPoint> sandLossMm() {
    List<DryDownPoint> points = new ArrayList<>();
    double lossMm = 0;
    double lastDay = 0;
    double lastRate = 0;
    for (List<String> row : OpenData.rows("sand-evaporation-rate/sand_evap_rate.csv")) {
      double day = Double.parseDouble(row.get(0)) / 86_400;
      double rate = mmPerD(row);
      lossMm += points.isEmpty() ? 0 : (rate + lastRate) / 2 * (day - lastDay);
      points.add(new DryDownPoint(day, -lossMm));
      lastDay = day;
      lastRate = rate;
    }
    return points;
  }

  @Test
  @Outside(source = "open data evaporating-sample (MIT): Theil-Sen slope by SciPy, 24 to 72 h")
  void aRobustSlopeOfARealBalance() {
    assertEquals(-0.30408, DryingRate.robust(sample(24, 71.9999)), 0.0005);
  }

  @Test
  @Outside(source = "open data evaporating-sample (MIT): total loss")
  void theSamplesTotalLoss() {
    List<DryDownPoint> all = sample(0, 1000);
    assertEquals(1194, all.size());
    assertEquals(42.89, all.get(0).grossG() - all.get(1193).grossG(), 0.01);
  }

  @ParameterizedTest(name = "{0} to {1} h")
  @CsvSource({"0, 24, 3.935", "120, 160, 1.753"})
  @Outside(source = "open data evaporating-sample (MIT): drying rate by stage, NumPy")
  void theSamplesRateByStage(double fromH, double toH, double mmPerD) {
    double gPerH = DryingRate.leastSquares(sample(fromH, toH));
    assertEquals(mmPerD, -gPerH * 24 / SURFACE_CM2 * 10, 0.02);
  }

  private static List<DryDownPoint> sample(double fromH, double toH) {
    List<List<String>> rows = OpenData.rows("evaporating-sample/sl_scale.csv");
    LocalDateTime start = LocalDateTime.parse(rows.get(0).get(0));
    List<DryDownPoint> points = new ArrayList<>();
    for (List<String> row : rows) {
      double hours = Duration.between(start, LocalDateTime.parse(row.get(0))).toSeconds() / 3600.0;
      if (hours >= fromH && hours <= toH) {
        points.add(new DryDownPoint(hours, Double.parseDouble(row.get(4))));
      }
    }
    return points;
  }

  @Test
  void aWildReadingDoesNotMoveTheRobustSlope() {
    List<DryDownPoint> points = new ArrayList<>();
    for (int t = 0; t < 20; t++) {
      points.add(new DryDownPoint(t, t == 9 ? 900 : 400 - 0.5 * t));
    }
    assertEquals(-0.5, DryingRate.robust(points), 1e-9);
    assertTrue(Math.abs(DryingRate.leastSquares(points) + 0.5) > 0.1);
  }

  private static List<DryDownPoint> points(double... timesAndMasses) {
    List<DryDownPoint> points = new ArrayList<>();
    for (int i = 0; i < timesAndMasses.length; i += 2) {
      points.add(new DryDownPoint(timesAndMasses[i], timesAndMasses[i + 1]));
    }
    return points;
  }

  /** Means 7/3 and 7; products -11 over squares of 14/3. */
  @Test
  void slopeOfLeastSquares() {
    assertEquals(-33 / 14.0, DryingRate.leastSquares(points(1, 10, 2, 8, 4, 3)), 1e-12);
  }

  /** One slope; -2, -1 and -0.5; -4, -2.5, -7/3, -2, -1.5 and -1. */
  @Test
  void medianOfTheSlopesBetweenAllPairs() {
    assertEquals(-2, DryingRate.robust(points(0, 10, 1, 8)), 1e-12);
    assertEquals(-1, DryingRate.robust(points(0, 10, 1, 8, 3, 7)), 1e-12);
    assertEquals(-13 / 6.0, DryingRate.robust(points(0, 10, 1, 8, 2, 7, 3, 3)), 1e-12);
  }

  private static List<DryDownPoint> twenty(TwoStageDryDown truth, double from) {
    List<DryDownPoint> points = new ArrayList<>();
    for (int t = 0; t < 20; t++) {
      points.add(new DryDownPoint(from + t, truth.massG(t)));
    }
    return points;
  }

  /** Of twenty weighings three lie on either side of the break at least. */
  @ParameterizedTest(name = "break at {0}: seen {1}")
  @CsvSource({"1.5, false", "2.5, true", "10.5, true", "16.5, true", "17.5, false"})
  void eachStageNeedsThreeWeighings(double breakAt, boolean seen) {
    TwoStageDryDown truth = new TwoStageDryDown(400, 4, breakAt, 400 - 4 * breakAt - 30, 15);
    TwoStageFit.Outcome outcome = TwoStageFit.fit(twenty(truth, 100));
    if (!seen) {
      assertEquals(new TwoStageFit.Refused(Refusal.NO_BREAK), outcome);
      return;
    }
    TwoStageFit.Fitted found = assertInstanceOf(TwoStageFit.Fitted.class, outcome);
    assertEquals(breakAt, found.curve().breakAt(), 1e-3, "from the first weighing on");
    assertEquals(400, found.curve().startG(), 1e-3);
    assertEquals(4, found.curve().evenRateG(), 1e-3);
    assertEquals(truth.residualG(), found.curve().residualG(), 0.01);
    assertEquals(15, found.curve().tau(), 0.01);
  }

  /** 1 g a step and then 3: no second stage of drying. */
  @Test
  void fasterAfterTheBreakIsNoSecondStage() {
    TwoStageDryDown faster = new TwoStageDryDown(400, 1, 9.5, 360.5, 10);
    assertEquals(new TwoStageFit.Refused(Refusal.NO_BREAK), TwoStageFit.fit(twenty(faster, 0)));
  }

  /** An error in the time of the weighings: in hours sixty times that in minutes. */
  @Test
  void breaksErrorIsInTheTimeOfTheWeighings() {
    TwoStageDryDown truth = new TwoStageDryDown(400, 4, 9.5, 330, 15);
    Random random = new Random(11);
    List<DryDownPoint> hours = new ArrayList<>();
    List<DryDownPoint> minutes = new ArrayList<>();
    for (int t = 0; t < 20; t++) {
      double grossG = truth.massG(t) + 0.1 * random.nextGaussian();
      hours.add(new DryDownPoint(t, grossG));
      minutes.add(new DryDownPoint(60 * t, grossG));
    }
    double inHours =
        assertInstanceOf(TwoStageFit.Fitted.class, TwoStageFit.fit(hours)).breakError();
    double inMinutes =
        assertInstanceOf(TwoStageFit.Fitted.class, TwoStageFit.fit(minutes)).breakError();
    assertEquals(60 * inHours, inMinutes, 1e-3 * inMinutes);
  }

  @Test
  void slopesOfNothingAreRefused() {
    List<DryDownPoint> one = List.of(new DryDownPoint(0, 400));
    List<DryDownPoint> twins = List.of(new DryDownPoint(1, 400), new DryDownPoint(1, 390));
    assertThrows(IllegalArgumentException.class, () -> DryingRate.robust(one));
    assertThrows(IllegalArgumentException.class, () -> DryingRate.robust(twins));
    assertThrows(IllegalArgumentException.class, () -> DryingRate.leastSquares(one));
    assertThrows(IllegalArgumentException.class, () -> DryingRate.leastSquares(twins));
  }

  @ParameterizedTest
  @CsvSource({"400, 300, 300, 25", "300, 400, 160, 25", "400, 300, 160, 0", "NaN, 300, 160, 25"})
  void aCurveThatCannotBeIsRefused(double start, double critical, double residual, double rate) {
    assertThrows(
        IllegalArgumentException.class,
        () -> TwoStageDryDown.continuous(start, critical, residual, rate));
  }
}
