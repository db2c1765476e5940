package dev.cupwarden.core.limits;

/** What a refill may take in all, where that is less than what is missing; its rows say which. */
final class BudgetLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double leftMl = pass.proposal().wantMl();
    return Double.isInfinite(leftMl)
        ? Ruling.FREE
        : Ruling.cap(leftMl, leftMl, pass.proposal().leastMl());
  }
}
