package dev.cupwarden.core.weighing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.core.checks.Outside;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WaterDensityTest {
  @ParameterizedTest(name = "{0} C")
  @CsvSource({
    "15, 999.1026, .004",
    "20, 998.2071, .002",
    "22, 997.7735, .002",
    "25, 997.0479, .002",
    "30, 995.6502, .002",
    "40, 992.2, .05"
  })
  @Outside(source = "table of water density (wfrjr.com)")
  void densityFollowsTheTable(double tempC, double kgPerM3, double within) {
    assertEquals(kgPerM3, WaterDensity.kgPerM3(tempC), within);
  }

  @Test
  @Outside(source = "Kell 1975 as in Jones and Harris 1992, its misprinted 16.89785 set right")
  void anotherFormulaOfDensityAgrees() {
    for (double t = 5; t <= 40; t += 0.5) {
      double kell =
          (999.83952
                  + t
                      * (16.945176
                          + t
                              * (-7.9870401e-3
                                  + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))))
              / (1 + 16.879850e-3 * t);
      assertEquals(kell, WaterDensity.kgPerM3(t), 0.006, "at " + t);
    }
  }

  @ParameterizedTest(name = "{0} C")
  @CsvSource({"15, 1.0020", "20, 1.0029", "22, 1.0033", "25, 1.0040", "30, 1.0054"})
  @Outside(source = "ISO/TR 20461, factor Z at 1013 hPa, as an instrument's manual prints it")
  void oneGramOfWaterInAir(double tempC, double mlPerG) {
    assertEquals(mlPerG, WaterDensity.mlPerG(tempC), 1e-4);
    assertEquals(250 * mlPerG, WaterDensity.volumeMl(250, tempC), 0.025);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.1, 40.1, Double.NaN})
  void iceAndSteamAreRefused(double tempC) {
    assertThrows(IllegalArgumentException.class, () -> WaterDensity.mlPerG(tempC));
  }
}
