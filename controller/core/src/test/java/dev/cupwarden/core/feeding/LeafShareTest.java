package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.Vessel;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup 100 mm wide at the top has 78.54 cm² there: 7.854 mL a day for each kPa. */
class LeafShareTest {
  private static final Vessel WIDE = new Vessel("wide", 100, 70, 100, 10);

  @ParameterizedTest(name = "{0} mL a day at {1} kPa: {2}")
  @CsvSource({
    "15.708, 1.0, 0.5",
    "31.416, 1.0, 0.75",
    "31.416, 2.0, 0.5",
    "7.854, 1.0, 0.0",
    "3.0, 1.0, 0.0",
    "500, 1.0, 0.9"
  })
  void whatABareMixWouldLoseLeavesItsSalts(double lostMlPerD, double kpa, double share) {
    assertEquals(share, LeafShare.of(lostMlPerD, WIDE, kpa), 1e-5);
  }
}
