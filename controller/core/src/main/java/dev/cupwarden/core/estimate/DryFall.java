package dev.cupwarden.core.estimate;

import dev.cupwarden.core.substrate.WaterStress;

/**
 * How use falls in a cup that dries: by nothing down to a knee, from there in a straight line to
 * none where the cutting can take no more, as FAO-56's stress coefficient does ({@link
 * dev.cupwarden.core.substrate.WaterStress}, equation 84).
 *
 * <p>With x the water left above the end, loss below the knee is dx/dt = -r·x/x_knee, r being what
 * a wet cup would lose; so the water u that it would have lost instead takes it from x₁ to x₂ = x₁·
 * e^(-u/x_knee).
 *
 * @param kneeG gross grams at the knee
 * @param endG gross grams where nothing more is lost, below {@code kneeG}
 */
record DryFall(double kneeG, double endG) {
  /**
   * Table 22's middle of 0.5 at 5 mm a day, raised by 0.04 for each mm less (its note): a cup on a
   * bench loses some 2 to 3 mm a day of its top's area.
   */
  static final double KNEE_DEPLETION = WaterStress.fractionFor(0.5, 2.5);

  /** Of a cup of which nothing falls: what may be is told early rather than late. */
  static final DryFall NEVER = new DryFall(-1e9, -2e9);

  /** What bark and mix still lose in a cup dried out: our choice. */
  private static final double LEAST = 0.05;

  static DryFall of(WeightFrame frame) {
    return new DryFall(frame.massG(KNEE_DEPLETION), frame.massG(1));
  }

  /** Loss at that weight as a part of a wet cup's. */
  double part(double massG) {
    return massG >= kneeG ? 1 : Math.max(LEAST, (massG - endG) / (kneeG - endG));
  }

  /** Part by which the loss of one weight changes at another. */
  double times(double beforeG, double nowG) {
    return beforeG >= kneeG && nowG >= kneeG ? 1 : part(nowG) / part(beforeG);
  }

  /** Water that a cup which does not slow loses while this one falls from one weight to another. */
  double unslowedG(double fromG, double toG) {
    double wet = Math.max(0, fromG - Math.max(kneeG, toG));
    double top = Math.min(fromG, kneeG);
    if (toG >= top) {
      return fromG - toG;
    }
    return wet + kneeSpanG() * Math.log(left(top) / left(toG));
  }

  /** Where a cup of that weight is when one that does not slow would have lost so much. */
  double massAfter(double fromG, double unslowedG) {
    double wet = Math.max(0, fromG - kneeG);
    if (unslowedG <= wet) {
      return fromG - unslowedG;
    }
    double top = Math.min(fromG, kneeG);
    return endG + left(top) * Math.exp(-(unslowedG - wet) / kneeSpanG());
  }

  private double left(double massG) {
    return Math.max(LEAST * kneeSpanG(), massG - endG);
  }

  private double kneeSpanG() {
    return kneeG - endG;
  }
}
