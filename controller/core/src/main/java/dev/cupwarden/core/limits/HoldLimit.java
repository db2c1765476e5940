package dev.cupwarden.core.limits;

import dev.cupwarden.core.orders.Hold;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.core.watering.Cause;

/** A person said: no water until then, or no feed. */
final class HoldLimit implements Limit {
  private final boolean feedOnly;

  /** Judges holds of that kind only. */
  HoldLimit(boolean feedOnly) {
    this.feedOnly = feedOnly;
  }

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
    boolean let =
        hold == null
            || !hold.holdsAt(pass.at())
            || hold.feedOnly() != feedOnly
            || (hold.rescue() && rescue(pass.proposal().cause()));
    if (let) {
      return Ruling.FREE;
    }
    double hoursLeft = Elapsed.hours(pass.at(), hold.until());
    return Ruling.veto(code(), hoursLeft, 0.0, "h");
  }

  private static boolean rescue(Cause cause) {
    return cause != null && cause.rescue();
  }
}
