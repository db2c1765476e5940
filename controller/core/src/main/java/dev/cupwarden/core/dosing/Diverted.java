package dev.cupwarden.core.dosing;

/**
 * Water that the cups of one look missed of their passes, held against what came to cups that got
 * none. A valve that stands open takes its part of every pass, so all of those come short, and what
 * they miss is what its cup gains; behind two tubes that were exchanged one cup gains the whole of
 * what another misses. A knock at a scale, a person's can, or a mix that sheds water does one of
 * the two alone; so one look is proof, where rises by themselves need three ({@link Steps}).
 *
 * @param missedG of what the pump gave for the cups that were judged, what they did not gain
 * @param allMissed whether each of them came short
 * @param neverCameG what those missed to which next to nothing came
 */
public record Diverted(double missedG, boolean allMissed, double neverCameG) {
  public static final Diverted NONE = new Diverted(0.0, true, 0.0);

  /** Gain and loss agree within this part: a pump's own error twice over. Our choice. */
  private static final double AGREES_WITHIN = 0.25;

  /**
   * After a pass was judged, unless more came of it than was ordered.
   *
   * @param pumpPart of what is ordered that the pump truly gives
   */
  public Diverted judged(DoseCheck.Finding finding, double pumpPart) {
    double cameG = pumpPart * finding.orderedMl();
    double missesG = cameG - finding.riseG();
    boolean missed = finding.riseG() < DoseCheck.BYPASS_BELOW * cameG;
    boolean never = finding.verdict() == DoseCheck.Verdict.SHORT;
    return new Diverted(
        missedG + missesG, allMissed && missed, neverCameG + (never ? missesG : 0.0));
  }

  /** Whether cups that gained so much together, g, have what the others missed. */
  public boolean cameTo(double gainG) {
    return (allMissed && agree(gainG, missedG)) || agree(gainG, neverCameG);
  }

  private static boolean agree(double gainG, double lossG) {
    return lossG >= Steps.PROOF_G && Math.abs(gainG - lossG) <= AGREES_WITHIN * lossG;
  }
}
