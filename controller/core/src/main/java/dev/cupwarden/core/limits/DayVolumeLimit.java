package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.VolumeBounds;

/**
 * What a cup may take in 24 hours and since it was last full.
 *
 * @param orHalf once in 24 h half of the cup's room where that is more, so that no dry cup is
 *     locked out
 */
record DayVolumeLimit(boolean orHalf) implements Limit {
  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    double pumpPart = pass.bench().pumpPart();
    VolumeBounds.Bound bound = VolumeBounds.usual(pass.at(), cup.given(), cup.account(), pumpPart);
    if (orHalf) {
      VolumeBounds.Bound half =
          VolumeBounds.half(pass.at(), cup.given(), cup.account(), pumpPart, cup.roomMl());
      bound = half.leftMl() > bound.leftMl() ? half : bound;
    }
    return Double.isInfinite(bound.mostMl())
        ? Ruling.FREE
        : Ruling.cap(bound.leftMl(), bound.givenMl(), bound.mostMl(), bound.detail());
  }
}
