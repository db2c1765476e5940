package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Means that fade by a fifth a day, worked out by hand; all figures are our choice. */
class UsualUseTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");

  private static LossLog.Day seen(double perKpa, double quiet, double peak) {
    return new LossLog.Day(perKpa, quiet, peak, 1.0, 100.0);
  }

  private static UsualUse after(double... perKpa) {
    UsualUse use = UsualUse.UNKNOWN;
    for (double one : perKpa) {
      use = use.day(AT, seen(one, one / 2.0, one * 2.0), Double.NaN);
    }
    return use;
  }

  @Test
  void firstDaysAreAPlainMeanAndLaterOnesFadeByAFifth() {
    assertEquals(1.0, after(1.0).perKpa(), 1e-12);
    assertEquals(1.5, after(1.0, 2.0).perKpa(), 1e-12);
    assertEquals(2.0, after(1.0, 2.0, 3.0).perKpa(), 1e-12);
    assertEquals(1.0, after(1, 1, 1, 1, 1).perKpa(), 1e-12);
    assertEquals(1.2, after(1, 1, 1, 1, 2).perKpa(), 1e-12);
    assertEquals(1.2, after(1, 1, 1, 1, 1, 2).perKpa(), 1e-12);
    assertEquals(0.6, after(1, 1, 1, 1, 1, 2).quietPerKpa(), 1e-12);
    assertEquals(100.0, after(1, 1).light(), 1e-12);
    LossLog.Day bright = new LossLog.Day(1.0, 0.5, 2.0, 1.0, 300.0);
    assertEquals(200.0, after(1).day(AT, bright, Double.NaN).light(), 1e-12);
  }

  @Test
  void saysWhatToExpectFromTheSecondDayOn() {
    assertFalse(after(1.0).known());
    assertTrue(after(1.0, 1.0).known());
    assertTrue(UsualUse.UNKNOWN.due(AT));
    assertFalse(after(1.0).due(AT.plus(Duration.ofHours(24)).minusMillis(1)));
    assertTrue(after(1.0).due(AT.plus(Duration.ofHours(24))));
  }

  /** At most half more than before, and a twentieth less a day. */
  @Test
  void peakIsBelievedByHalfADayAtATime() {
    assertEquals(4.0, after(1.0, 2.0).peakPerKpa(), 1e-12, "the first two days are believed");
    assertEquals(3.0, after(1.0, 1.0, 5.0).peakPerKpa(), 1e-12, "1.5 x 2");
    assertEquals(1.9, after(1.0, 1.0, 0.1).peakPerKpa(), 1e-12, "0.95 x 2");
  }

  @Test
  void quietHoursThatVaryWidenTheDoubt() {
    UsualUse known = after(1.0, 1.0);
    assertEquals(0.0225, known.quietVar(), 1e-12);
    UsualUse wide = known.day(AT, seen(1, 0.5, 2), 0.4);
    assertEquals(0.8 * 0.0225 + 0.2 * 0.16, wide.quietVar(), 1e-12);
    assertEquals(0.0225, after(1.0).day(AT, seen(1, 0.5, 2), 0.4).quietVar(), 1e-12);
    assertEquals(0.6, known.varied(0.6).quietMost(), 1e-12);
    assertEquals(0.6, known.varied(0.6).varied(0.2).quietMost(), 1e-12);
    assertEquals(0.57, known.varied(0.6).day(AT, seen(1, 1, 1), 0).quietMost(), 1e-12);
  }

  @ParameterizedTest(name = "variance {0}, most {1}, foretold {2}: {3} g/h")
  @CsvSource({
    "0.0225, 0.0, 1.0, 0.375",
    "0.0225, 0.0, 0.2, 0.10",
    "0.0, 0.0, 2.0, 0.30",
    "0.0, 0.4, 2.0, 0.80",
    "0.04, 0.4, 2.0, 1.0"
  })
  void moreThanTheCupVariesBy(double var, double most, double foretold, double gPerH) {
    UsualUse use = new UsualUse(AT, 5, 1, 1, var, most, 2, 100);
    assertEquals(gPerH, use.surelyMoreGPerH(foretold), 1e-12);
  }
}
