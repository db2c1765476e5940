package dev.cupwarden.core.watering;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What each cause is called in messages, and which are rescues or a person's. */
class CauseTest {
  @ParameterizedTest(name = "{0}: {1}, rescue {2}, by hand {3}")
  @CsvSource({
    "DUE, due, false, false",
    "FED_RESCUE, rescue, true, false",
    "FORECAST, forecast, false, false",
    "RESCUE, rescue, true, false",
    "BLIND, blind, false, false",
    "FLUSH, flush, false, true",
    "ORDER, order, false, true",
    "PRIME, order, false, false",
    "RINSE, flush, false, false"
  })
  void everyCause(Cause cause, String word, boolean rescue, boolean byHand) {
    assertEquals(word, cause.word());
    assertEquals(rescue, cause.rescue());
    assertEquals(byHand, cause.byHand());
  }
}
