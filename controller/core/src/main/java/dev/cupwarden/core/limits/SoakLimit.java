package dev.cupwarden.core.limits;

import java.time.Duration;

/** A pass soaks in before the next. */
final class SoakLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    if (pass.cup().lastPassAt() == null || pass.bench().between()) {
      return Ruling.FREE;
    }
    Duration soak = pass.cup().soaking().soak(pass.bench().watering().soak());
    double minutes = pass.hoursSince(pass.cup().lastPassAt()) * 60.0;
    double leastMinutes = soak.toMillis() / 60_000.0;
    return minutes < leastMinutes ? Ruling.veto(minutes, leastMinutes) : Ruling.FREE;
  }
}
