package dev.cupwarden.core.plants;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/**
 * A plant whose first cuttings root in 14 days and whose last in 28: half by 19.80, the root of 14
 * times 28, and the logarithm's sd is ln 2 / (2 x 1.645) = 0.2107. Quantiles of the normal from
 * tables.
 */
class RootingForecastTest {
  private static final Instant AT = Instant.parse("2027-02-14T08:00:00Z");
  private static final RootingTime TIME = new RootingTime(new Span(14, 28), 20, 10);
  private static final RootingClock STRUCK = RootingClock.begun(0, TIME, AT);

  private static void days(double early, double likely, double late, RootingForecast of) {
    assertEquals(early, of.earlyDays(), 0.02);
    assertEquals(likely, of.likelyDays(), 0.02);
    assertEquals(late, of.lateDays(), 0.02);
  }

  private static RootingForecast white(RootingClock clock) {
    return RootingForecast.white(TIME, clock).orElseThrow();
  }

  @Test
  void byItsKindAlone() {
    days(15.11, 19.80, 25.94, white(STRUCK));
  }

  @Test
  void withoutRootsWhenHalfOfItsKindHaveSome() {
    RootingClock looked = new RootingClock(19.799, AT, 19.799, 0, 1);
    days(20.33, 22.82, 28.00, white(looked));
  }

  @Test
  void itsUseHasRisenWhenHalfOfItsKindHaveRoots() {
    RootingClock risen = new RootingClock(19.799, null, 0, 19.799, 1);
    days(14.43, 18.08, 23.64, white(risen));
  }

  @Test
  void toughenedRootsComeASecondWaitLater() {
    days(25.62, 31.92, 40.84, white(STRUCK).thenToughened());
    days(7.90, 12.12, 18.60, RootingForecast.toughened(0).orElseThrow());
  }

  @Test
  void ofOneLaterThanNearlyAllNothingIsForetold() {
    assertTrue(RootingForecast.white(TIME, new RootingClock(38, AT, 38, 0, 1)).isEmpty());
    assertTrue(RootingForecast.white(TIME, new RootingClock(37, AT, 37, 0, 1)).isPresent());
  }

  @Test
  void warmthIsFollowedWithinDaysAndALookOutweighsUse() {
    RootingClock warm = STRUCK.plus(3, 1.5);
    assertEquals(4.5, warm.days(), 1e-9);
    assertEquals(1.0 + 0.5 * (1 - Math.exp(-1)), warm.pace(), 1e-9);
    RootingClock risen = warm.risen(AT);
    assertEquals(4.5, risen.plus(1, 1).risen(AT).risenAtDays(), "since when it has");
    RootingClock looked = risen.looked(AT);
    assertEquals(0.0, looked.risenAtDays());
    assertEquals(4.5, looked.noneAtDays());
    assertEquals(0.0, looked.risen(AT.plus(Duration.ofDays(6))).risenAtDays());
    assertEquals(4.5, looked.risen(AT.plus(Duration.ofDays(7))).risenAtDays());
  }
}
