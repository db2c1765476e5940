package dev.cupwarden.core.limits;

/** Feed burns dry roots: plain water goes first. */
final class DryRootsLimit implements Limit {
  static final double PLAIN_ABOVE = 0.8;

  @Override
  public Ruling rule(Case pass) {
    double depletion = pass.cup().depletion();
    return depletion > PLAIN_ABOVE ? Ruling.veto(depletion, PLAIN_ABOVE) : Ruling.FREE;
  }
}
