package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.VolumeBounds;
import java.util.EnumSet;
import java.util.Set;

/**
 * What a cup may take in 24 hours and since it was last full. A rescue, or a person's order, has
 * half of the cup's room once in 24 h where that is more, so that no dry cup is locked out.
 */
final class DayVolumeLimit implements Limit {
  private static final Set<Cause> HAVE_HALF = EnumSet.of(Cause.RESCUE, Cause.ORDER);

  @Override
  public String code() {
    return "day-volume";
  }

  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    double pumpPart = pass.bench().pumpPart();
    VolumeBounds.Bound bound = VolumeBounds.usual(pass.at(), cup.given(), cup.account(), pumpPart);
    Cause cause = pass.proposal().cause();
    if (cause != null && HAVE_HALF.contains(cause)) {
      VolumeBounds.Bound half =
          VolumeBounds.half(pass.at(), cup.given(), cup.account(), pumpPart, cup.roomMl());
      bound = half.leftMl() > bound.leftMl() ? half : bound;
    }
    return Double.isInfinite(bound.mostMl())
        ? Ruling.FREE
        : Ruling.cap(bound.leftMl(), code(), bound.givenMl(), bound.mostMl(), "mL", bound.detail());
  }
}
