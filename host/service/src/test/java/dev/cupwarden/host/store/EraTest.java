package dev.cupwarden.host.store;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;

class EraTest {
  @Test
  void itsEndsAreHeldAndNothingBeyond() {
    assertTrue(Era.holds(Era.EARLIEST) && Era.holds(Era.LATEST));
    assertFalse(Era.holds(Era.EARLIEST.minusNanos(1)));
    assertFalse(Era.holds(Era.LATEST.plusNanos(1)));
    assertFalse(Era.holds(Instant.MIN) || Era.holds(Instant.MAX));
  }
}
