package dev.cupwarden.simulator.second;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.OpenData;
import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.simulator.world.MixSheet;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The curve of a mix in the second world, and its vapour. */
class PoreCurveTest {
  private static final MixSheet SHEET = new MixSheet(0.85, 0.5237, 0.3028, 0.15, 0.11);

  @Test
  void itGoesThroughThePointsOfTheSheet() {
    PoreCurve curve = PoreCurve.of(SHEET, 10);
    assertEquals(0.5237, curve.fullAt(10) * 0.85, 1e-9);
    assertEquals(0.3028, curve.fullAt(50) * 0.85, 1e-9);
    assertEquals(1, curve.fullAt(0), 1e-12);
  }

  @Test
  void powerLawAndParabolaMeetInHeightAndSteepness() {
    PoreCurve curve = PoreCurve.of(SHEET, 10);
    double join = 2 * curve.slope() / (1 + 2 * curve.slope());
    assertEquals(curve.suctionCm(join - 1e-9), curve.suctionCm(join + 1e-9), 1e-6);
    assertEquals(curve.steepnessCm(join - 1e-9), curve.steepnessCm(join + 1e-9), 1e-5);
    for (double full = 0.05; full < 1; full += 0.01) {
      assertEquals(full, curve.fullAt(curve.suctionCm(full)), 1e-9);
      double rise = curve.suctionCm(full) - curve.suctionCm(full + 1e-7);
      assertEquals(curve.steepnessCm(full + 0.5e-7), rise / 1e-7, 1e-3 * rise / 1e-7);
    }
  }

  @Test
  void conductanceFallsByOrdersAsItDries() {
    PoreCurve curve = PoreCurve.of(SHEET, 10);
    assertEquals(10, curve.conductanceCmPerH(1), 1e-12);
    assertTrue(curve.conductanceCmPerH(0.6) < 0.2);
    assertTrue(curve.conductanceCmPerH(0.3) < 0.001);
  }

  @Test
  @Outside(
      source =
          "Londra 2010, HortScience 45:1106: conductance of peat mixes falls sharply between 0 and"
              + " -70 cm (abstract)")
  void conductanceFallsSharplyWithinSeventyCentimetres() {
    PoreCurve curve = PoreCurve.of(SHEET, 10);
    assertTrue(curve.conductanceCmPerH(curve.fullAt(70)) < 0.001 * curve.fullCmPerH());
  }

  @Test
  @Outside(source = "vapour over water, kPa: 2.338 at 20, 3.168 at 25, 0.872 at 5 °C (tables)")
  void vapourIsThatOfTheTables() {
    assertEquals(2338, Penman.vapourPa(20), 4);
    assertEquals(3168, Penman.vapourPa(25), 5);
    assertEquals(872, Penman.vapourPa(5), 2);
    assertEquals(611.2, Penman.vapourPa(0), 1);
  }

  /** The curve is made for mixes; how far it is from a measured loam is told, not tuned. */
  @Test
  @Outside(source = "retention-sandy-loam: measured points of suction and water")
  void throughTwoPointsOfALoamItStaysNearTheOthers() {
    List<List<String>> rows = OpenData.rows("retention-sandy-loam/sl_retention_points.csv");
    MixSheet sheet = new MixSheet(0.62, at(rows, 1.0), at(rows, Math.log10(50)), 0.1, 0.7);
    PoreCurve curve = PoreCurve.of(sheet, 1);
    double sum = 0;
    int count = 0;
    for (List<String> row : rows) {
      double suctionCm = Math.pow(10, Double.parseDouble(row.get(0)));
      double error =
          curve.fullAt(suctionCm) * sheet.saturated() - Double.parseDouble(row.get(1)) / 100;
      if (suctionCm < 1000) {
        sum += error * error;
        count++;
      }
    }
    double rms = Math.sqrt(sum / count);
    System.out.printf("loam, %d points below 1000 cm: rms %.4f of volume%n", count, rms);
    assertTrue(count > 50 && rms < 0.05, "rms " + rms);
  }

  private static double at(List<List<String>> rows, double pf) {
    return rows.stream()
            .min(
                (one, two) ->
                    Double.compare(
                        Math.abs(Double.parseDouble(one.get(0)) - pf),
                        Math.abs(Double.parseDouble(two.get(0)) - pf)))
            .map(row -> Double.parseDouble(row.get(1)))
            .orElseThrow()
        / 100;
  }
}
