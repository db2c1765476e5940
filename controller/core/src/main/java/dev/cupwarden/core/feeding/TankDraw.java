package dev.cupwarden.core.feeding;

/**
 * What a pass takes from each tank, in mL, and the label strength of what they bring to the cup.
 */
public record TankDraw(double plainMl, double feedMl, double strength) {
  public static final TankDraw NOTHING = new TankDraw(0.0, 0.0, 0.0);

  public double totalMl() {
    return plainMl + feedMl;
  }
}
