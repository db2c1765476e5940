package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.Cause;

/**
 * One pass is small enough to soak in: the bench's pass, a tenth of the cup's water at capacity,
 * and never past its refill line.
 */
final class PassLimit implements Limit {
  private static final double PART_OF_CAPACITY = 0.1;

  @Override
  public String code() {
    return "pass";
  }

  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    double mostMl =
        Math.min(pass.bench().watering().passMl(), PART_OF_CAPACITY * cup.capacityMl())
            * cup.soaking().passPart();
    if (pass.proposal().cause() == Cause.FED_RESCUE) {
      // Feed on dry roots: half of the usual at a time.
      mostMl /= 2.0;
    }
    // A small cup gets a small pass; one that the weight could not show is too large to be one.
    mostMl = Math.max(mostMl, Limits.LEAST_PASS_ML);
    Cause cause = pass.proposal().cause();
    boolean toRefillLine = cause != null && cause != Cause.FLUSH && cause != Cause.BLIND;
    if (toRefillLine) {
      mostMl = Math.min(mostMl, cup.roomMl());
    }
    return Ruling.cap(mostMl, code(), pass.proposal().wantMl(), mostMl, "mL");
  }
}
