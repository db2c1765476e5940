package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A reading is too old after 2.4 ticks, and never before twelve minutes: our choice. */
class EstimatorSilenceTest {
  @ParameterizedTest(name = "a tick each {0} min: {1} min")
  @CsvSource({"1, 12", "5, 12", "6, 14.4", "10, 24"})
  void readingIsFreshForSoLong(long tickMinutes, double minutes) {
    Estimator estimator = new Estimator(new EstimatorSettings(Duration.ofMinutes(tickMinutes)));
    EstimateState read =
        estimator.step(EstimateState.fresh(), Cups.TALL, CupReading.of(Cups.START, 320)).state();
    assertEquals(Cups.START.plusSeconds(Math.round(60 * minutes)), read.freshUntil());
    assertEquals("trusted", code(read, Math.round(60 * minutes)));
    assertEquals("scale-silent", code(read, Math.round(60 * minutes) + 1));
  }

  @Test
  void liftIsToldOnce() {
    Cups cup = new Cups();
    cup.dries(24, 320, 0.6);
    cup.reads(0);
    assertEquals(1, cup.events(WeightEvent.Lifted.class).size(), "at once");
    cup.reads(0.2);
    assertEquals(1, cup.events(WeightEvent.Lifted.class).size());
    Cups never = new Cups();
    never.reads(0);
    assertEquals(0, never.events.size(), "no cup was known to be lifted");
  }

  private static String code(EstimateState state, long seconds) {
    return CupEstimate.at(state, Cups.TALL, Cups.START.plusSeconds(seconds))
        .distrust()
        .map(distrust -> distrust.code().word())
        .orElse("trusted");
  }
}
