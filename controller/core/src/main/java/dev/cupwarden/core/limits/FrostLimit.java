package dev.cupwarden.core.limits;

/**
 * Water that may freeze on roots is not given, nor any where it may freeze in hose, valves and drip
 * ends, however warm a mat keeps the roots.
 */
public final class FrostLimit implements Limit {
  /** Air at or below it may freeze what stands in a drip end: half a kelvin of margin. */
  public static final double ICE_C = 0.5;

  @Override
  public Ruling rule(Case pass) {
    double airC = pass.bench().airC();
    if (airC <= ICE_C) {
      return Ruling.veto("ice", airC, ICE_C, "C");
    }
    double rootsC = pass.cup().rootsC();
    double frostC = pass.bench().climate().frostC();
    return rootsC < frostC ? Ruling.veto(rootsC, frostC) : Ruling.FREE;
  }
}
