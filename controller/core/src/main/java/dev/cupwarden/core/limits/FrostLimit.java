package dev.cupwarden.core.limits;

/** Water that may freeze on roots is not given. */
final class FrostLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double frostC = pass.bench().climate().frostC();
    double coldestC = coldest(pass.bench().rootC(), pass.bench().airC());
    return coldestC < frostC ? Ruling.veto(coldestC, frostC) : Ruling.FREE;
  }

  /** NaN, which holds nothing, where neither was ever supplied. */
  private static double coldest(double rootC, double airC) {
    if (Double.isNaN(rootC)) {
      return airC;
    }
    return Double.isNaN(airC) ? rootC : Math.min(rootC, airC);
  }
}
