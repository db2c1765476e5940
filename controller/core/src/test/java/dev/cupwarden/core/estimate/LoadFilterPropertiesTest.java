package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.checks.Outside;
import java.time.Duration;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.hipparchus.filtering.kalman.ProcessEstimate;

class LoadFilterPropertiesTest {

  @Property
  @Outside(source = "Hipparchus 4.0.3, linear Kalman filter, over random inputs")
  void oneStepIsTheLibrarysOwn(
      @ForAll @DoubleRange(min = 50, max = 600) double massG,
      @ForAll @DoubleRange(min = 0, max = 4) double rateGPerH,
      @ForAll @DoubleRange(min = -0.05, max = 0.05) double gPerC,
      @ForAll @DoubleRange(min = 0.05, max = 2) double sdG,
      @ForAll @DoubleRange(min = 0.02, max = 1) double sdGPerH,
      @ForAll @DoubleRange(min = -0.9, max = 0.9) double correlation,
      @ForAll @IntRange(min = 1, max = 360) int minutes,
      @ForAll @DoubleRange(min = -10, max = 10) double warmC,
      @ForAll @DoubleRange(min = -2, max = 2) double surpriseG) {
    double varK = 0.03 * 0.03;
    double covMR = correlation * sdG * sdGPerH;
    LoadFilter before =
        new LoadFilter(
            Cups.START, massG, rateGPerH, gPerC, sdG * sdG, covMR, 0, sdGPerH * sdGPerH, 0, varK);
    LoadFilter forecast = before.predict(Cups.START.plus(Duration.ofMinutes(minutes)));
    double readG = forecast.expectedG(warmC) + surpriseG;
    LoadFilter ours = forecast.update(surpriseG, warmC, 0.01);
    LibraryFilter theirs =
        new LibraryFilter(
            new double[] {massG, rateGPerH, gPerC},
            new double[][] {{sdG * sdG, covMR, 0}, {covMR, sdGPerH * sdGPerH, 0}, {0, 0, varK}});
    double wanderGPerH = Math.max(0.02, 0.12 * rateGPerH);
    ProcessEstimate after = theirs.step(minutes / 60.0, wanderGPerH, readG, warmC, 0.01);
    assertEquals(after.getState().getEntry(0), ours.massG(), 1e-6);
    assertEquals(after.getState().getEntry(1), ours.rateGPerH(), 1e-6);
    double theirGPerC = Math.max(-0.15, Math.min(0.15, after.getState().getEntry(2)));
    assertEquals(theirGPerC, ours.gPerC(), 1e-6);
    double[] covariance = {
      ours.varM(), ours.covMR(), ours.covMK(), ours.varR(), ours.covRK(), ours.varK()
    };
    int at = 0;
    for (int row = 0; row < 3; row++) {
      for (int column = row; column < 3; column++) {
        assertEquals(after.getCovariance().getEntry(row, column), covariance[at++], 1e-6);
      }
    }
  }
}
