package dev.cupwarden.core.setup;

import dev.cupwarden.core.units.Quantity;
import dev.cupwarden.core.units.Unit;
import java.math.BigDecimal;

/**
 * Between which values a number makes physical sense, both ends included.
 *
 * @param least in {@code unit}
 * @param most in {@code unit}
 * @param unit as the grower would write it; null for a pure number
 */
record Range(double least, double most, Unit unit) {
  static final Range FRACTION = of(0, 1);

  static Range of(double least, double most) {
    return new Range(least, most, null);
  }

  static Range of(double least, double most, Unit unit) {
    return new Range(least, most, unit);
  }

  /** Whether a value, in base units, lies within. */
  boolean holds(double base) {
    return base >= inBase(least) && base <= inBase(most);
  }

  /** Such as "5 mL to 100 mL". */
  String words() {
    String symbol = unit == null ? "" : " " + unit.symbol();
    return Quantity.show(least) + symbol + " to " + Quantity.show(most) + symbol;
  }

  private double inBase(double value) {
    return unit == null ? value : new Quantity(BigDecimal.valueOf(value), unit).inBase();
  }
}
