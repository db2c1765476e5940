package dev.cupwarden.core.limits;

/**
 * A pass that has gone through every limit. Only this package can make one, and the pump takes
 * nothing else.
 */
public final class AllowedPass {
  private final String cup;
  private final double plainMl;
  private final double feedMl;
  private final double strength;
  private final String why;

  AllowedPass(String cup, double plainMl, double feedMl, double strength, String why) {
    this.cup = cup;
    this.plainMl = plainMl;
    this.feedMl = feedMl;
    this.strength = strength;
    this.why = why;
  }

  /** The cup to water. */
  public String cup() {
    return cup;
  }

  /** From the plain tank, mL. */
  public double plainMl() {
    return plainMl;
  }

  /** From the feed tank, mL. */
  public double feedMl() {
    return feedMl;
  }

  /** Label strength of the blend. */
  public double strength() {
    return strength;
  }

  /** The cause, as the contract names it. */
  public String why() {
    return why;
  }

  /** Both tanks together, mL. */
  public double totalMl() {
    return plainMl + feedMl;
  }
}
