package dev.cupwarden.core.limits;

import dev.cupwarden.core.feeding.FeedLedger;
import dev.cupwarden.core.setup.Feed;

/**
 * Within a label interval a cup gets no more than one full watering at the label's strength, which
 * is also its cap in N, P and K.
 */
final class LedgerLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    Case.CupFacts cup = pass.cup();
    double passMl = Math.min(pass.bench().watering().passMl(), pass.proposal().wantMl());
    Feed feed = pass.bench().feed();
    if (feed == null) {
      return Ruling.FREE;
    }
    double left =
        FeedLedger.strengthLeft(
            cup.given(), pass.at(), feed, pass.bench().feeds(), passMl, cup.availableMl());
    return Ruling.cap(left, cup.fed(), FeedLedger.MOST);
  }
}
