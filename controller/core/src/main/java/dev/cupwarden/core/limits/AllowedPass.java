package dev.cupwarden.core.limits;

/**
 * A pass that has gone through every limit. Only this package can make one, and the pump takes
 * nothing else.
 */
public final class AllowedPass {
  private final String cup;
  private final Part plain;
  private final Part feed;
  private final double strength;
  private final String why;

  /**
   * What comes out of one tank.
   *
   * @param tank its name; null where there is none of the kind, and nothing comes
   */
  public record Part(String tank, double ml) {}

  AllowedPass(String cup, Part plain, Part feed, double strength, String why) {
    this.cup = cup;
    this.plain = plain;
    this.feed = feed;
    this.strength = strength;
    this.why = why;
  }

  /** The cup to water. */
  public String cup() {
    return cup;
  }

  /** The part that is plain water. */
  public Part plain() {
    return plain;
  }

  /** The part that is feed as it was mixed. */
  public Part feed() {
    return feed;
  }

  /** From the plain tank, mL. */
  public double plainMl() {
    return plain.ml();
  }

  /** From the feed tank, mL. */
  public double feedMl() {
    return feed.ml();
  }

  /** Label strength of what leaves the drip end: of the blend, where no hose is shared. */
  public double strength() {
    return strength;
  }

  /** The cause, as the contract names it. */
  public String why() {
    return why;
  }

  /** Both tanks together, mL. */
  public double totalMl() {
    return plain.ml() + feed.ml();
  }
}
