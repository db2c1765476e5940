package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Passes halved down to a quarter where water ran past the mix: our choice. */
class SoakingTest {
  private static final Duration SOAK = Duration.ofMinutes(12);

  @ParameterizedTest(name = "{0}: after a bypass {1}, after an arrival {2}, {3} min")
  @CsvSource({
    "1.0, 0.5, 1.0, 12",
    "0.5, 0.25, 1.0, 24",
    "0.25, 0.25, 0.5, 24",
    "0.6, 0.3, 1.0, 24"
  })
  void partOfThePassAndSoak(double part, double bypass, double arrival, long minutes) {
    Soaking soaking = new Soaking(part);
    assertEquals(bypass, soaking.afterBypass().passPart());
    assertEquals(arrival, soaking.afterArrival().passPart());
    assertEquals(Duration.ofMinutes(minutes), soaking.soak(SOAK));
  }

  @Test
  void cupThatTakesWaterWellKeepsItsPasses() {
    assertSame(Soaking.USUAL, Soaking.USUAL.afterArrival());
  }
}
