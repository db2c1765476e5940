package dev.cupwarden.core.units;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.Optional;

/**
 * The units a grower may write, each with its exact factor to the base unit of its dimension.
 *
 * <p>Exact by definition: inch 25.4 mm; US gallon 231 cubic inches, of which a fluid ounce is
 * 1/128, a tablespoon 1/256 and a teaspoon 1/768; avoirdupois ounce 28.349523125 g (NIST Handbook
 * 44, Appendix C).
 */
public enum Unit {
  MM("mm", Dimension.LENGTH, "1"),
  CM("cm", Dimension.LENGTH, "10"),
  M("m", Dimension.LENGTH, "1000"),
  IN("in", Dimension.LENGTH, "25.4"),
  ML("mL", Dimension.VOLUME, "1"),
  L("L", Dimension.VOLUME, "1000"),
  US_FL_OZ("US fl oz", Dimension.VOLUME, "29.5735295625"),
  US_GAL("US gal", Dimension.VOLUME, "3785.411784"),
  TSP("tsp", Dimension.VOLUME, "4.92892159375"),
  TBSP("tbsp", Dimension.VOLUME, "14.78676478125"),
  G("g", Dimension.MASS, "1"),
  KG("kg", Dimension.MASS, "1000"),
  OZ("oz", Dimension.MASS, "28.349523125"),
  S("s", Dimension.TIME, "1"),
  MIN("min", Dimension.TIME, "60"),
  H("h", Dimension.TIME, "3600"),
  D("d", Dimension.TIME, "86400"),
  C("C", Dimension.TEMPERATURE, "1"),
  F("F", Dimension.TEMPERATURE, "1") {
    private static final BigDecimal FREEZING = BigDecimal.valueOf(32);
    private static final BigDecimal FIVE = BigDecimal.valueOf(5);
    private static final BigDecimal NINE = BigDecimal.valueOf(9);

    @Override
    BigDecimal toBase(BigDecimal number) {
      return number.subtract(FREEZING).multiply(FIVE).divide(NINE, MathContext.DECIMAL64);
    }

    @Override
    BigDecimal fromBase(BigDecimal base) {
      return base.multiply(NINE).divide(FIVE, MathContext.DECIMAL64).add(FREEZING);
    }
  },
  MS_PER_CM("mS/cm", Dimension.CONDUCTIVITY, "1"),
  DS_PER_M("dS/m", Dimension.CONDUCTIVITY, "1"),
  US_PER_CM("uS/cm", Dimension.CONDUCTIVITY, "0.001"),
  ML_PER_S("mL/s", Dimension.FLOW, "1"),
  MG_PER_L("mg/L", Dimension.CONCENTRATION, "1");

  private final String symbol;
  private final Dimension dimension;
  private final BigDecimal factor;

  Unit(String symbol, Dimension dimension, String factor) {
    this.symbol = symbol;
    this.dimension = dimension;
    this.factor = new BigDecimal(factor);
  }

  /** As it is written behind a number. */
  public String symbol() {
    return symbol;
  }

  public Dimension dimension() {
    return dimension;
  }

  BigDecimal toBase(BigDecimal number) {
    return number.multiply(factor);
  }

  BigDecimal fromBase(BigDecimal base) {
    return base.divide(factor, MathContext.DECIMAL64);
  }

  /** The unit of that very symbol, if there is one. */
  static Optional<Unit> of(String symbol) {
    return Arrays.stream(values()).filter(unit -> unit.symbol.equals(symbol)).findFirst();
  }

  /** The unit whose symbol differs only in its capitals; no two do so from each other. */
  static Optional<Unit> nearly(String symbol) {
    return Arrays.stream(values()).filter(unit -> unit.symbol.equalsIgnoreCase(symbol)).findFirst();
  }
}
