package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.alerts.AlertCode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What each reason says, typed in: its name, its unit, its alert, whose fault it is. */
class DistrustCodeTest {
  @ParameterizedTest(name = "{0}: {1}, \"{2}\", {3}, scale failed {4}, loaded {5}")
  @CsvSource({
    "NEVER_READ, never-read, '', , false, false",
    "SCALE_STUCK, scale-stuck, min, SCALE_STUCK, true, false",
    "SCALE_NOISY, scale-noisy, g, SCALE_NOISY, true, false",
    "SCALE_OUT_OF_RANGE, scale-out-of-range, g, SCALE_OUT_OF_RANGE, true, true",
    "SCALE_SILENT, scale-silent, min, SCALE_SILENT, true, false",
    "SCALE_DRIFTING, scale-drifting, g/h, SCALE_DRIFTING, true, false",
    "CUPS_SWAPPED, cups-swapped, '', CUPS_SWAPPED, false, false",
    "SETTLING, settling, min, , false, false"
  })
  void isToldByItsAlertAndSaysWhoseFaultItIs(
      DistrustCode code,
      String word,
      String unit,
      AlertCode alert,
      boolean scaleFailed,
      boolean perhapsLoaded) {
    assertEquals(word, code.word());
    assertEquals(unit, code.unit());
    assertEquals(alert, code.alert().orElse(null));
    assertEquals(scaleFailed, code.scaleFailed());
    assertEquals(perhapsLoaded, code.perhapsLoaded());
  }
}
