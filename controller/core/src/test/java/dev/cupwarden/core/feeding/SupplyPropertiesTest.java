package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

class SupplyPropertiesTest {
  /** As `Limits.allow` forgives. */
  private static final double FORGIVEN = 1e-9;

  private static final Supply BOTH = new Supply("plain", 4_000.0, "feed", "leafy", 2_000.0, 0.5);
  private static final Supply FEED_ALONE = new Supply(null, 0.0, "feed", "leafy", 2_000.0, 0.25);

  /** A room to the refill line may lack a hair of a whole tenth. */
  @Property
  void aDrawIsNeverMoreNorStrongerThanAskedAndTakesAllWholeTenths(
      @ForAll @IntRange(min = 1, max = 500) int tenths,
      @ForAll @IntRange(min = 4, max = 16) int digits,
      @ForAll boolean less,
      @ForAll @DoubleRange(min = 0.0, max = 1.0) double wanted,
      @ForAll @DoubleRange(min = 0.0, max = 1.0) double most) {
    double ml = tenths / 10.0 + (less ? -1.0 : 1.0) * Math.pow(10.0, -digits);
    for (Supply supply : new Supply[] {BOTH, FEED_ALONE}) {
      TankDraw draw = supply.draw(ml, wanted, most);
      assertTrue(draw.totalMl() <= ml + FORGIVEN, draw + " of " + ml);
      assertTrue(draw.strength() <= most + FORGIVEN, draw + " of " + most);
      assertTrue(
          draw.totalMl() > ml - 0.1 - FORGIVEN || supply.equals(FEED_ALONE), draw + " of " + ml);
    }
  }

  @Example
  void aTenthThatADoubleCannotHoldIsStillWhole() {
    assertEquals(0.3, BOTH.draw(0.1 * 3, 0.0, 0.0).totalMl(), 1e-12);
    assertEquals(7.4, BOTH.draw(7.499_999_995_992_397, 0.0, 0.0).totalMl(), 1e-12);
  }
}
