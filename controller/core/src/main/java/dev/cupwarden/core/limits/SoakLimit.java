package dev.cupwarden.core.limits;

import java.time.Duration;

/** A pass soaks in before the next. */
final class SoakLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    return within(pass, pass.cup().soaking().soak(pass.bench().watering().soak()));
  }

  /**
   * Held until so much time has gone by since the last pass; a person keeps it where they water.
   */
  static Ruling within(Case pass, Duration soak) {
    if (pass.cup().lastPassAt() == null || pass.bench().between()) {
      return Ruling.FREE;
    }
    double minutes = pass.hoursSince(pass.cup().lastPassAt()) * 60.0;
    double leastMinutes = soak.toMillis() / 60_000.0;
    return minutes < leastMinutes ? Ruling.veto(minutes, leastMinutes) : Ruling.FREE;
  }
}
