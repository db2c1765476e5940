package dev.cupwarden.core.limits;

import dev.cupwarden.core.units.Elapsed;

/**
 * A person said: no water until then, or no feed.
 *
 * @param feedOnly judges holds of that kind only
 * @param withoutRescues judges only holds that let no rescue through
 */
record HoldLimit(boolean feedOnly, boolean withoutRescues) implements Limit {
  @Override
  public Ruling rule(Case pass) {
    Ruling bench = rule(pass, pass.bench().hold());
    return bench.free() ? rule(pass, pass.cup().hold()) : bench;
  }

  private Ruling rule(Case pass, Hold hold) {
    boolean holds =
        hold != null
            && hold.holdsAt(pass.at())
            && hold.feedOnly() == feedOnly
            && !(withoutRescues && hold.rescue());
    return holds ? Ruling.veto(Elapsed.hours(pass.at(), hold.until()), 0.0) : Ruling.FREE;
  }
}
