package dev.cupwarden.core.substrate;

/** What came of fitting an exponential to one dry-down. */
public sealed interface DryDownFit {
  /**
   * Standard errors and what the curve leaves over.
   *
   * @param asymptoteG of the asymptote
   * @param amplitudeG of the amplitude
   * @param ratePerTime of the rate
   * @param rssG2 sum of the squared residuals
   * @param rsdG residual standard deviation
   */
  record Errors(
      double asymptoteG, double amplitudeG, double ratePerTime, double rssG2, double rsdG) {}

  /** The weighings determine all three figures: fit to forecast with. */
  record Identified(ExponentialDryDown curve, Errors errors) implements DryDownFit {}

  /**
   * The curve runs through the weighings, but where it ends is a guess: to look at, not to use for
   * control.
   *
   * @param because what shows it, for a person
   */
  record AsymptoteUnclear(ExponentialDryDown curve, Errors errors, String because)
      implements DryDownFit {}

  /** No curve. */
  record Refused(Refusal why) implements DryDownFit {}
}
