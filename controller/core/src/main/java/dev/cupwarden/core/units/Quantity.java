package dev.cupwarden.core.units;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number with its unit, as written: exact until it is asked for as a double.
 *
 * @param number as written, in {@code unit}
 */
public record Quantity(BigDecimal number, Unit unit) {
  /** Nine digits on either side are more than any scale, ruler or spoon has. */
  private static final Pattern WRITTEN =
      Pattern.compile("([-+]?[0-9]{1,9}(?:\\.[0-9]{1,9})?)( ?)([^0-9 .+-].*)?");

  /** Digits shown to a person. */
  private static final MathContext SHOWN = new MathContext(4, RoundingMode.HALF_EVEN);

  /**
   * Reads a quantity such as {@code 110 mm}: a plain decimal number, at most one space, a unit of
   * that dimension.
   *
   * @throws QuantityException with one sentence that says what was expected
   */
  public static Quantity parse(String text, Dimension dimension) throws QuantityException {
    Matcher written = WRITTEN.matcher(text);
    if (!written.matches()) {
      throw new QuantityException(
          "%s is not %s: expected a number and a unit, one of %s"
              .formatted(Quoted.text(text), dimension.words(), dimension.symbols()));
    }
    String symbol = written.group(3);
    if (symbol == null) {
      throw new QuantityException(
          "%s has no unit: expected %s in one of %s"
              .formatted(Quoted.text(text), dimension.words(), dimension.symbols()));
    }
    Optional<Unit> unit = Unit.of(symbol);
    if (unit.isEmpty()) {
      throw new QuantityException(
          "%s is not a known unit%s: expected %s in one of %s"
              .formatted(
                  Quoted.text(symbol),
                  Unit.nearly(symbol).map(near -> ", is " + near.symbol() + " meant?").orElse(""),
                  dimension.words(),
                  dimension.symbols()));
    }
    if (unit.get().dimension() != dimension) {
      throw new QuantityException(
          "%s is %s: expected %s in one of %s"
              .formatted(
                  Quoted.text(text),
                  unit.get().dimension().words(),
                  dimension.words(),
                  dimension.symbols()));
    }
    return new Quantity(new BigDecimal(written.group(1)), unit.get());
  }

  /** In the base unit of its dimension, rounded once. */
  public double inBase() {
    return unit.toBase(number).doubleValue();
  }

  /** The same quantity in the base unit, exact but for temperatures in F. */
  public BigDecimal exactInBase() {
    return unit.toBase(number);
  }

  /**
   * Writes a double of the base unit in a unit of the grower's, with four significant digits.
   *
   * @param base finite, in the base unit of the unit's dimension
   */
  public static String show(double base, Unit in) {
    return number(in.fromBase(BigDecimal.valueOf(base))) + " " + in.symbol();
  }

  /** Writes a pure number likewise. */
  public static String show(double number) {
    return number(BigDecimal.valueOf(number));
  }

  private static String number(BigDecimal value) {
    BigDecimal whole = value.setScale(0, RoundingMode.HALF_EVEN);
    BigDecimal shown = whole.precision() >= SHOWN.getPrecision() ? whole : value.round(SHOWN);
    return shown.signum() == 0 ? "0" : shown.stripTrailingZeros().toPlainString();
  }

  @Override
  public String toString() {
    return number.toPlainString() + " " + unit.symbol();
  }
}
