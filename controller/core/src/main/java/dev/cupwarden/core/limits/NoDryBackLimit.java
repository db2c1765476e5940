package dev.cupwarden.core.limits;

/**
 * Between two refills a cup dries back by a third of the way from refill to due, so that air
 * reaches its roots.
 */
final class NoDryBackLimit implements Limit {
  private static final double LEAST_PART = 1.0 / 3.0;

  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    if (pass.proposal().refilling() || Double.isNaN(cup.driedFrom())) {
      return Ruling.FREE;
    }
    double least = LEAST_PART * (cup.lines().due() - cup.lines().refill());
    double driedBy = cup.depletion() - Math.min(cup.driedFrom(), cup.lines().refill());
    return driedBy < least ? Ruling.veto(driedBy, least) : Ruling.FREE;
  }
}
