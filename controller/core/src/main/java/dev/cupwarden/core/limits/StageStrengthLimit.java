package dev.cupwarden.core.limits;

import dev.cupwarden.core.feeding.FeedStrength;

/** The program's own feed is no stronger than stage, label, mix, roots and salts leave. */
final class StageStrengthLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    FeedStrength most = pass.cup().mostFeed().get();
    return Double.isInfinite(most.strength())
        ? Ruling.FREE
        : Ruling.cap(
            most.strength(), most.value(), most.threshold(), most.by().word(), most.by().unit());
  }
}
