package dev.cupwarden.core.limits;

import dev.cupwarden.core.setup.RootStage;

/** Roots that cannot take feed get none. */
final class StageLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    RootStage stage = pass.cup().stage();
    return stage.takesFeed()
        ? Ruling.FREE
        : Ruling.veto(stage.ordinal(), RootStage.TOUGHENED.ordinal());
  }
}
