package dev.cupwarden.core.feeding;

/**
 * How salty a mix may be by the EC of its extract: the bands of university extension tables (UMass;
 * NC State HIL 590) that rules go by. Rooting cuttings belong in {@link #LOW}. A band reaches from
 * its bound to below the next one's.
 */
public enum RootMediumSalt {
  LOW(0.8, 1.0),
  NORMAL(2.0, 2.6);

  /** How the extract was made. */
  public enum Extract {
    /** Saturated media extract, as FAO-29 has it. */
    SATURATED,
    /** Water poured through a drained cup and caught below: as its water is at capacity. */
    POUR_THROUGH
  }

  private final double saturated;
  private final double pourThrough;

  RootMediumSalt(double saturated, double pourThrough) {
    this.saturated = saturated;
    this.pourThrough = pourThrough;
  }

  /** From where on an extract is of this band, mS/cm at 25 °C. */
  public double fromMsPerCm(Extract extract) {
    return extract == Extract.SATURATED ? saturated : pourThrough;
  }
}
