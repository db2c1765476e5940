package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.Refill;

/**
 * A pass of a flush is the bench's pass, whatever the cup holds: it is meant to run through, and a
 * person who is there empties the tray.
 */
final class FlushPassLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double mostMl = Math.min(Refill.FLUSH_PASS_ML, pass.bench().watering().passMl());
    return Ruling.cap(mostMl, pass.proposal().wantMl(), mostMl);
  }
}
