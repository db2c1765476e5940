package dev.cupwarden.core.dosing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;

import java.time.Instant;
import org.junit.jupiter.api.Test;

/** What ran through took its feed along; the water of the pass counts as given. */
class GivenTest {
  private static final Instant AT = Instant.parse("2027-02-14T12:00:00Z");

  /** A quarter of 30 mL at half of the label's strength: as much feed as 30 mL at an eighth. */
  @Test
  void feedCountsAsFarAsItStayed() {
    Given fed = new Given(AT, 30.0, 0.5, "leafy", 80.0, true);
    assertEquals(new Given(AT, 30.0, 0.125, "leafy", 80.0, true), fed.stayed(0.25));
  }

  @Test
  void plainWaterHasNothingToLose() {
    Given plain = new Given(AT, 30.0, 0.0, null, 80.0, false);
    assertSame(plain, plain.stayed(0.25));
  }
}
