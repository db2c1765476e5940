package dev.cupwarden.core.climate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Some evaporates in saturated air as well, as if it lacked 0.1 kPa: our choice. */
class DryingPowerTest {
  @ParameterizedTest(name = "deficit {0} kPa: {1} kPa")
  @CsvSource({"0, 0.1", "0.9, 1.0", "2.4, 2.5"})
  void deficitAndWhatStillAirTakes(double vpdKpa, double kPa) {
    assertEquals(kPa, DryingPower.kpa(vpdKpa), 1e-12);
  }
}
