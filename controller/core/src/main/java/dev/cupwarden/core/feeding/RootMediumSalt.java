package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * How salty a mix is by the EC of its extract, in the bands of university extension tables (UMass;
 * NC State HIL 590). Rooting cuttings belong in {@link #LOW}. A band reaches from its bound to
 * below the next one's; {@link #EXTREME} lies strictly above its bound.
 */
public enum RootMediumSalt {
  VERY_LOW(0, 0, 0),
  LOW(0.3, 0.8, 1.0),
  NORMAL(0.8, 2.0, 2.6),
  HIGH(1.3, 3.5, 4.6),
  VERY_HIGH(1.8, 5.0, 6.6),
  EXTREME(2.3, 6.0, 7.8);

  /** How the extract was made. */
  public enum Extract {
    /** One part of mix, two of water, by volume. */
    ONE_TO_TWO,
    /** Saturated media extract. */
    SATURATED,
    /** Water poured through a drained cup and caught below. */
    POUR_THROUGH
  }

  private final double oneToTwo;
  private final double saturated;
  private final double pourThrough;

  RootMediumSalt(double oneToTwo, double saturated, double pourThrough) {
    this.oneToTwo = oneToTwo;
    this.saturated = saturated;
    this.pourThrough = pourThrough;
  }

  /**
   * The band of an extract.
   *
   * @param ecMsPerCm EC of the extract at 25 °C, 0 to 200 mS per cm
   * @throws IllegalArgumentException outside of that range
   */
  public static RootMediumSalt of(double ecMsPerCm, Extract extract) {
    Argument.within("ecMsPerCm", ecMsPerCm, 0, 200);
    RootMediumSalt band = VERY_LOW;
    for (RootMediumSalt next : values()) {
      double from = next.fromMsPerCm(extract);
      if (next == EXTREME ? ecMsPerCm > from : ecMsPerCm >= from) {
        band = next;
      }
    }
    return band;
  }

  private double fromMsPerCm(Extract extract) {
    return switch (extract) {
      case ONE_TO_TWO -> oneToTwo;
      case SATURATED -> saturated;
      case POUR_THROUGH -> pourThrough;
    };
  }
}
