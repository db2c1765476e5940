package dev.cupwarden.core.substrate;

import dev.cupwarden.core.argument.Argument;
import dev.cupwarden.core.setup.Mix;

/**
 * Water retention of a mix: {@code theta(h) = residual + (saturated - residual) / (1 + (alpha
 * h)^n)^m} with {@code m = 1 - 1/n}.
 *
 * <p>Source: van Genuchten 1980, Soil Sci. Soc. Am. J. 44:892, as given in EPA/600/2-91/065 (RETC).
 *
 * @param saturated volume fraction of water with every pore full, above {@code residual}, at most 1
 * @param residual volume fraction left at any suction, 0 to below {@code saturated}
 * @param alphaPerCm inverse of the suction at which the mix begins to empty, 0 to 100 per cm; 0 is
 *     a mix that never drains
 * @param n steepness, above 1, at most 20
 */
public record VanGenuchten(double saturated, double residual, double alphaPerCm, double n) {
  /**
   * @throws IllegalArgumentException naming the argument out of its range
   */
  public VanGenuchten {
    Argument.above("saturated", saturated, 0, 1);
    Argument.below("residual", residual, 0, saturated);
    Argument.within("alphaPerCm", alphaPerCm, 0, 100);
    Argument.above("n", n, 1, 20);
  }

  /** The curve of a bench's mix. */
  public static VanGenuchten of(Mix mix) {
    return new VanGenuchten(mix.saturated(), mix.residual(), mix.alphaPerCm(), mix.n());
  }

  /**
   * Water held at a suction, as a fraction of volume.
   *
   * @param suctionCm suction as the height of a column of water, 0 to 1e9 cm
   * @throws IllegalArgumentException outside of that range
   */
  public double theta(double suctionCm) {
    Argument.within("suctionCm", suctionCm, 0, 1e9);
    return residual + (saturated - residual) * effective(alphaPerCm * suctionCm);
  }

  /** Part of the water above residual that stays at {@code alpha h}, 1 down to 0. */
  double effective(double alphaH) {
    return Math.pow(1 + Math.pow(alphaH, n), 1 / n - 1);
  }
}
