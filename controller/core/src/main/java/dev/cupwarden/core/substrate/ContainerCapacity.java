package dev.cupwarden.core.substrate;

import org.hipparchus.analysis.integration.gauss.GaussIntegrator;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.util.FastMath;

/**
 * What a cup's mix holds once it has drained: suction at height z above the drain holes is then z,
 * so capacity is the mean of the retention curve over the cup's height, weighted by its cross
 * section.
 *
 * <p>Source: Milks, Fonteno and Larson 1989, J. Am. Soc. Hort. Sci. 114(1):53-56.
 */
public final class ContainerCapacity {
  /** Below this {@code alpha x depth} the closed form loses digits by cancellation. */
  private static final double LEAST_FOR_CLOSED_FORM = 0.01;

  private static final GaussIntegrator UNIT_LEGENDRE =
      new GaussIntegratorFactory().legendre(32, 0, 1);

  private ContainerCapacity() {}

  /**
   * Mean water of the drained mix, as a fraction of its volume; from residual to saturated. By the
   * closed form for {@code n = 2}, by Gauss-Legendre quadrature else.
   */
  public static double theta(VanGenuchten mix, TaperedCup cup) {
    double alphaDepth = mix.alphaPerCm() * cup.depthCm();
    if (alphaDepth == 0) {
      return mix.saturated();
    }
    double held =
        mix.n() == 2 && alphaDepth >= LEAST_FOR_CLOSED_FORM
            ? effectiveMlClosed(mix.alphaPerCm(), cup)
            : effectiveMl(mix, cup);
    return mix.residual() + (mix.saturated() - mix.residual()) * held / cup.volumeMl();
  }

  /**
   * Integral of the effective water over the cup. With {@code alpha z = sinh(S u^2)} the integrand
   * is smooth both at the base, where the curve has a fractional power, and far up a coarse mix.
   */
  static double effectiveMl(VanGenuchten mix, TaperedCup cup) {
    double alpha = mix.alphaPerCm();
    double span = FastMath.asinh(alpha * cup.depthCm());
    double perUnit =
        UNIT_LEGENDRE.integrate(
            u -> {
              double s = span * u * u;
              double alphaZ = Math.sinh(s);
              double radius = cup.baseRadiusCm() + cup.widening() * alphaZ / alpha;
              return mix.effective(alphaZ) * radius * radius * Math.cosh(s) * u;
            });
    return Math.PI * 2 * span / alpha * perUnit;
  }

  /** The same for {@code n = 2}, exactly. */
  private static double effectiveMlClosed(double alpha, TaperedCup cup) {
    double depth = cup.depthCm();
    double base = cup.baseRadiusCm();
    double widening = cup.widening();
    double root = Math.sqrt(1 + alpha * depth * alpha * depth);
    double log = FastMath.asinh(alpha * depth);
    double alpha2 = alpha * alpha;
    return Math.PI
        * (base * base * log / alpha
            + 2 * base * widening * (root - 1) / alpha2
            + widening * widening * (depth * root / (2 * alpha2) - log / (2 * alpha2 * alpha)));
  }
}
