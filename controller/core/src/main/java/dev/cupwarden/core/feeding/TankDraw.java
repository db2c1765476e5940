package dev.cupwarden.core.feeding;

/** What a pass takes from each tank, in mL, and the label strength of both together. */
public record TankDraw(double plainMl, double feedMl, double strength) {
  static final TankDraw NOTHING = new TankDraw(0.0, 0.0, 0.0);

  public double totalMl() {
    return plainMl + feedMl;
  }
}
