package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.WetClock;

/** A cup that has stayed wet for two days gets nothing until it dries. */
final class WetTooLongLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    double hours = pass.cup().wet().hours(pass.at());
    return hours >= WetClock.HOLD_AFTER_H ? Ruling.veto(hours, WetClock.HOLD_AFTER_H) : Ruling.FREE;
  }
}
