package dev.cupwarden.core.feeding;

/**
 * Nitrogen, phosphorus and potassium as elements: mg, or mg per L where the text says so.
 *
 * @param nMg nitrogen
 * @param pMg phosphorus
 * @param kMg potassium
 */
public record Nutrients(double nMg, double pMg, double kMg) {
  /** Nothing given. */
  public static final Nutrients NONE = new Nutrients(0, 0, 0);

  /** Both together. */
  public Nutrients plus(Nutrients other) {
    return new Nutrients(nMg + other.nMg, pMg + other.pMg, kMg + other.kMg);
  }
}
