package dev.cupwarden.core.estimate;

/**
 * Whether a reading can be the cup's weight at all.
 *
 * <p>A reading nearer to zero than half of the dry cup is an empty scale: the lightest cup with its
 * mix weighs several times what a scale's zero wanders. Between that and the dry weight, above the
 * saturated weight, or not a finite number, it is no cup's weight. The margins leave room for
 * margins of the bench file: a mix filled a little tighter, a cutting that has grown a little.
 */
final class RangeCheck {
  private static final double LIFTED_PART_OF_DRY = 0.5;
  private static final double LEAST_MARGIN_BELOW_G = 3;
  private static final double MARGIN_BELOW_PART = 0.04;
  private static final double LEAST_MARGIN_ABOVE_G = 5;
  private static final double MARGIN_ABOVE_PART = 0.02;

  enum Verdict {
    PLAUSIBLE,
    LIFTED,
    OUT_OF_RANGE
  }

  private RangeCheck() {}

  static Verdict judge(double massG, WeightFrame frame) {
    if (Math.abs(massG) < LIFTED_PART_OF_DRY * frame.dryG()) {
      return Verdict.LIFTED;
    }
    return massG >= leastG(frame) && massG <= greatestG(frame)
        ? Verdict.PLAUSIBLE
        : Verdict.OUT_OF_RANGE;
  }

  /** The bound that an implausible reading broke, g. */
  static double boundG(double massG, WeightFrame frame) {
    return massG > greatestG(frame) ? greatestG(frame) : leastG(frame);
  }

  private static double leastG(WeightFrame frame) {
    return frame.dryG() - Math.max(LEAST_MARGIN_BELOW_G, MARGIN_BELOW_PART * frame.dryG());
  }

  private static double greatestG(WeightFrame frame) {
    return frame.saturatedG()
        + Math.max(LEAST_MARGIN_ABOVE_G, MARGIN_ABOVE_PART * frame.saturatedG());
  }
}
