package dev.cupwarden.core.feeding;

/**
 * What the tanks can give now.
 *
 * @param plainTank name of the tank of plain water; null where there is none
 * @param plainMl left in it; infinite where unknown
 * @param feedTank name of the tank of feed; null where there is none
 * @param feed name of the feed in it; null where there is none
 * @param feedMl left in it; infinite where unknown
 * @param feedStrength label strength of what is in it
 */
public record Supply(
    String plainTank,
    double plainMl,
    String feedTank,
    String feed,
    double feedMl,
    double feedStrength) {
  /** Tenths of a millilitre: what a double may lack of a whole one, and no more. */
  private static final double ROUNDING = 1e-9;

  /** Feed that a cup may have as it is, where there is no plain water to thin it with, mL. */
  public double undilutedMl(double most) {
    return feed != null && feedStrength <= most ? feedMl : 0.0;
  }

  /** Whether there is a tank of plain water at all. */
  public boolean hasPlain() {
    return plainTank != null;
  }

  /**
   * A pass blended by volume from both tanks, in whole tenths of a millilitre, never more and never
   * stronger than asked. A limit on feed never blocks water while plain water is left: what the
   * feed tank lacks is plain.
   *
   * @param ml volume of the pass
   * @param wanted label strength wished for
   * @param most label strength allowed at most
   * @return empty volumes where nothing in the tanks suits
   */
  public TankDraw draw(double ml, double wanted, double most) {
    double tenths = Math.floor(ml * 10.0 + ROUNDING);
    if (!hasPlain() || plainMl < ml) {
      boolean suits = feed != null && feedStrength <= most && feedMl >= ml;
      return suits ? new TankDraw(0.0, tenths / 10.0, feedStrength) : TankDraw.NOTHING;
    }
    double strength = Math.min(Math.min(wanted, most), feed == null ? 0.0 : feedStrength);
    double feedTenths = feedTenths(tenths, strength);
    if (feedTenths / 10.0 > feedMl) {
      feedTenths = 0.0;
    }
    Blend blend = new Blend((tenths - feedTenths) / 10.0, feedTenths / 10.0);
    double blended = feedTenths == 0.0 ? 0.0 : blend.strength(0.0, feedStrength);
    return new TankDraw(blend.plainMl(), blend.feedMl(), blended);
  }

  /**
   * The last of a tank that no longer holds the whole pass: a smaller one is better than none.
   *
   * @param leastMl a smaller one is not worth a valve
   * @param ml volume of the whole pass; the rest as in {@link #draw}
   */
  public TankDraw drawLast(double leastMl, double ml, double wanted, double most) {
    double lastMl = Math.min(ml, hasPlain() ? plainMl : undilutedMl(most));
    return lastMl < leastMl ? TankDraw.NOTHING : draw(lastMl, wanted, most);
  }

  private double feedTenths(double tenths, double strength) {
    if (strength <= 0.0) {
      return 0.0;
    }
    return Math.floor(Blend.of(tenths, strength, 0.0, feedStrength).feedMl() + ROUNDING);
  }
}
