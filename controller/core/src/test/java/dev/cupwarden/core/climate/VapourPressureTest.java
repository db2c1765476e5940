package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class VapourPressureTest {
  @ParameterizedTest(name = "{0} C")
  @CsvSource(
      textBlock =
          """
          0,  .6108
          1,  .6567
          5,  .8723
          10, 1.2280
          15, 1.7053
          18, 2.0640
          20, 2.3383
          22, 2.6439
          25, 3.1678
          30, 4.2431
          35, 5.6227
          40, 7.3756
          """)
  @Outside(source = "FAO-56 (Allen et al. 1998), annex 2, table 2.3 (from memory, to 3 decimals)")
  void saturationPressureFollowsTheTable(double tempC, double kPa) {
    assertEquals(kPa, VapourPressure.saturationKpa(tempC), 1e-4);
  }

  @Test
  @Outside(source = "FAO-56 (Allen et al. 1998), example 3")
  void saturationAtADaysExtremes() {
    assertEquals(3.075, VapourPressure.saturationKpa(24.5), 5e-4);
    assertEquals(1.705, VapourPressure.saturationKpa(15), 5e-4);
  }

  @Test
  @Outside(source = "FAO-56 (Allen et al. 1998), example 20")
  void atTheDewPointAirIsSaturated() {
    assertEquals(1.68, VapourPressure.saturationKpa(14.8), 0.005);
  }

  @ParameterizedTest(name = "{0} C {1} %")
  @CsvSource(
      textBlock =
          """
          20, 60, .9353
          22, 70, .7932
          21, 80, .4974
          18, 90, .2064
          24, 50, 1.4920
          17, 100, 0
          """)
  @Outside(source = "FAO-56 (Allen et al. 1998), equation 11, computed apart")
  void theDeficitOfASensorsReading(double tempC, double rhPct, double kPa) {
    assertEquals(kPa, VapourPressure.deficitKpa(tempC, rhPct), 1e-4);
  }

  @Property
  void dryerAirWantsMore(
      @ForAll @DoubleRange(min = -20, max = 45) double tempC,
      @ForAll @DoubleRange(min = 0, max = 99) double rhPct) {
    assertTrue(
        VapourPressure.deficitKpa(tempC, rhPct) > VapourPressure.deficitKpa(tempC, rhPct + 1));
  }

  @ParameterizedTest(name = "{0} C {1} %")
  @CsvSource({"NaN, 50", "20, NaN", "-61, 50", "101, 50", "20, -1", "20, 100.1"})
  void airThatCannotBeIsRefused(double tempC, double rhPct) {
    String said =
        assertThrows(IllegalArgumentException.class, () -> VapourPressure.deficitKpa(tempC, rhPct))
            .getMessage();
    assertTrue(said.matches("(tempC|rhPct) must be from -?\\d+ to 100, not .*"), said);
  }
}
