package dev.cupwarden.core.limits;

import dev.cupwarden.core.orders.Hold;
import java.time.Duration;

/** A person said: no feed until then. */
final class FeedHoldLimit implements Limit {
  @Override
  public String code() {
    return "hold";
  }

  @Override
  public Ruling rule(Case pass) {
    Ruling bench = rule(pass, pass.bench().hold());
    return bench == Ruling.FREE ? rule(pass, pass.cup().hold()) : bench;
  }

  private Ruling rule(Case pass, Hold hold) {
    if (hold == null || !hold.feedOnly() || !hold.holdsAt(pass.at())) {
      return Ruling.FREE;
    }
    double hoursLeft = Duration.between(pass.at(), hold.until()).toMillis() / 3_600_000.0;
    return Ruling.veto(code(), hoursLeft, 0.0, "h");
  }
}
