package dev.cupwarden.core.limits;

/**
 * One pass is small enough to soak in: the bench's pass, a tenth of the cup's water at capacity.
 *
 * @param part of it, where less is given at a time
 */
record PassLimit(double part) implements Limit {
  private static final double PART_OF_CAPACITY = 0.1;

  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    double usualMl =
        Math.min(pass.bench().watering().passMl(), PART_OF_CAPACITY * cup.capacityMl())
            * cup.soaking().passPart();
    // A small cup gets a small pass; one that the weight could not show is too large to be one.
    double mostMl = Math.max(part * usualMl, Limits.LEAST_PASS_ML);
    return Ruling.cap(mostMl, pass.proposal().wantMl(), mostMl);
  }
}
