package dev.cupwarden.core.feeding;

import dev.cupwarden.core.argument.Argument;

/**
 * A pass drawn from two tanks. Strengths mix in proportion to volume.
 *
 * @param plainMl from the weaker tank, 0 or more
 * @param feedMl from the stronger tank, 0 or more
 */
public record Blend(double plainMl, double feedMl) {
  /**
   * @throws IllegalArgumentException for a negative volume or NaN
   */
  public Blend {
    Argument.within("plainMl", plainMl, 0, 1e9);
    Argument.within("feedMl", feedMl, 0, 1e9);
  }

  /**
   * The volumes of both tanks that give a pass of a strength.
   *
   * @param totalMl 0 or more
   * @param strength wanted, from the plain tank's to the feed tank's
   * @param plainStrength label strength in the weaker tank, 0 or more; usually 0
   * @param feedStrength label strength in the stronger tank, above {@code plainStrength}
   * @throws IllegalArgumentException outside of those ranges: a tank cannot be made stronger
   */
  public static Blend of(
      double totalMl, double strength, double plainStrength, double feedStrength) {
    Argument.within("totalMl", totalMl, 0, 1e9);
    Argument.within("plainStrength", plainStrength, 0, 1e4);
    Argument.above("feedStrength", feedStrength, plainStrength, 1e4);
    Argument.within("strength", strength, plainStrength, feedStrength);
    double span = feedStrength - plainStrength;
    return new Blend(
        totalMl * (feedStrength - strength) / span, totalMl * (strength - plainStrength) / span);
  }

  /** Both tanks together, mL. */
  public double totalMl() {
    return plainMl + feedMl;
  }

  /**
   * Label strength of the pass; the inverse of {@link #of}.
   *
   * @param plainStrength label strength in the weaker tank, 0 or more
   * @param feedStrength label strength in the stronger tank, 0 or more
   * @throws IllegalArgumentException outside of those ranges, or for a pass of nothing
   */
  public double strength(double plainStrength, double feedStrength) {
    Argument.within("plainStrength", plainStrength, 0, 1e4);
    Argument.within("feedStrength", feedStrength, 0, 1e4);
    Argument.above("plainMl + feedMl", totalMl(), 0, 2e9);
    return (plainMl * plainStrength + feedMl * feedStrength) / totalMl();
  }
}
