package dev.cupwarden.core.alerts;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Instant;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AlertFiguresTest {
  private static Optional<String> found(String code, String cup, double value, double threshold) {
    return AlertFigures.words(
        new AlertNotice(code, cup, "raised", Instant.EPOCH, value, threshold, "Look."));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          wet-too-long | 49.0  | 48.5 | 49 h, limit 48.5 h
          near-dry     | 0.931 | 0.9  | 93.1 % of its usable water gone, limit 90 %
          salts-high   | 4.257 | 4.0  | 4.26 mS/cm, limit 4 mS/cm
          scale-silent | 31.0  | 30.0 | 31 min, limit 30 min
          dose-short   | 0.4   | 2.0  | 0.4 g, limit 2 g
          """)
  void aCupsAlertIsToldWithItsUnit(String code, double value, double threshold, String words) {
    assertEquals(Optional.of(words), found(code, "A1", value, threshold));
  }

  @Test
  void anAlertOfTheWholeBenchCountsCupsWhereItStandsForThem() {
    assertEquals(Optional.of("in 7 cups"), found("salts-high", null, 7, 4));
    assertEquals(Optional.of("in 3 cups"), found("dose-short", null, 3, 3));
    assertEquals(Optional.of("4 °C, limit 5 °C"), found("cold", null, 4, 5));
    assertEquals(Optional.empty(), found("salts-high", null, 0, 4), "over");
  }

  @Test
  void whatIsSoOrNotSoHasNoNumber() {
    assertEquals(Optional.empty(), found("leak", null, 1, 0));
    assertEquals(Optional.empty(), found("cups-swapped", "A1", 12, 0));
  }
}
