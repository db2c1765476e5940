package dev.cupwarden.core.dosing;

/** A pass by tank. */
public record Blend(double plainMl, double feedMl, double strength) {
  static final Blend NOTHING = new Blend(0.0, 0.0, 0.0);

  public double totalMl() {
    return plainMl + feedMl;
  }
}
