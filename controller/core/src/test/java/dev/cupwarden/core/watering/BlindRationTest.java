package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A cup that used 24 g a day: 14.4 mL a day where it is rooted, 7.2 mL where not; our choice. */
class BlindRationTest {
  private static final Instant DEAD = Instant.parse("2027-02-14T12:00:00Z");
  private static final UseLog USE = UseLog.EMPTY.plus(DEAD, 48.0, 48.0);

  private static Instant after(String time) {
    return DEAD.plus(Duration.parse(time));
  }

  @ParameterizedTest(name = "{0}: rooted {1} mL, struck {2} mL")
  @CsvSource({
    "PT23H59M59S, 0, 0",
    "PT24H, 14.4, 7.2",
    "PT47H59M, 14.4, 7.2",
    "PT48H, 28.8, 14.4",
    "PT72H, 43.2, 21.6",
    "PT95H59M59S, 43.2, 21.6",
    "PT96H, 0, 0"
  })
  void rationsAreSavedUpDayByDay(String dead, double rootedMl, double struckMl) {
    Instant at = after(dead);
    assertEquals(rootedMl, BlindRation.ml(DEAD, at, USE, RootStage.WHITE, List.of()), 1e-9);
    assertEquals(struckMl, BlindRation.ml(DEAD, at, USE, RootStage.STRUCK, List.of()), 1e-9);
    assertEquals(rootedMl > 0.0, BlindRation.on(DEAD, at));
  }

  @Test
  void allThatWasGivenSinceCounts() {
    List<Given> given =
        List.of(
            new Given(DEAD.minusSeconds(1), 30, 0, null, 0, false),
            new Given(DEAD, 4, 0, null, 0, false),
            new Given(after("PT30H"), 5, 0, null, 0, true));
    assertEquals(
        28.8 - 9.0, BlindRation.ml(DEAD, after("PT50H"), USE, RootStage.CIRCLING, given), 1e-9);
    List<Given> more = List.of(new Given(DEAD, 100, 0, null, 0, true));
    assertEquals(0.0, BlindRation.ml(DEAD, after("PT50H"), USE, RootStage.CIRCLING, more));
  }

  @Test
  void cupWhoseUseIsUnknownGetsNone() {
    UseLog short24 = UseLog.EMPTY.plus(DEAD, 24.0, 23.9);
    assertEquals(0.0, BlindRation.ml(DEAD, after("PT24H"), short24, RootStage.WHITE, List.of()));
    assertEquals(
        24.0 * 0.6,
        BlindRation.ml(
            DEAD, after("PT24H"), UseLog.EMPTY.plus(DEAD, 24, 24), RootStage.WHITE, List.of()),
        1e-9);
    assertFalse(BlindRation.on(null, DEAD));
  }

  @ParameterizedTest(name = "{0}: dead {1}, after {2} h")
  @CsvSource({
    "SCALE_SILENT, true, 6",
    "SCALE_STUCK, true, 6",
    "SCALE_NOISY, true, 6",
    "SCALE_DRIFTING, true, 6",
    "SCALE_OUT_OF_RANGE, true, 24",
    "SETTLING, false, 6",
    "NEVER_READ, false, 6",
    "CUPS_SWAPPED, false, 6"
  })
  void whatMakesACupBlind(DistrustCode code, boolean dead, long hours) {
    assertEquals(dead, code.scaleFailed());
    assertEquals(Duration.ofHours(hours), BlindWatering.after(code));
  }

  @Test
  void useIsKnownAfterSixtyHours() {
    assertFalse(UseLog.EMPTY.plus(DEAD, 60.0, 59.9).known());
    assertTrue(UseLog.EMPTY.plus(DEAD, 60.0, 60.0).known());
  }

  @Test
  void quarterIsOverAtSixHours() {
    UseLog quarter = UseLog.EMPTY.plus(DEAD, 1.0, 1.0);
    UseLog within = quarter.plus(after("PT5H59M59S"), 2.0, 1.0);
    assertEquals(new UseLog.Quarter(DEAD, 3.0, 2.0), within.open());
    UseLog over = within.plus(after("PT6H"), 4.0, 1.0);
    assertEquals(List.of(within.open()), over.closed());
    assertEquals(new UseLog.Quarter(after("PT6H"), 4.0, 1.0), over.open());
  }

  @Test
  void quartersAreClosedAfterSixHoursAndForgottenAfterThreeDays() {
    UseLog log = UseLog.EMPTY;
    for (int hour = 0; hour < 200; hour++) {
      log = log.plus(DEAD.plus(Duration.ofHours(hour)), hour < 100 ? 1.0 : 2.0, 1.0);
    }
    assertEquals(48.0, log.lostPerDayG(), 1e-9, "the last three days alone");
  }
}
