package dev.cupwarden.core.limits;

/** A cup that is off the bench, or came back a moment ago, gets nothing. */
final class AwayLimit implements Limit {
  /** As long as a lifted cup must stand quiet. */
  private static final double QUIET_MIN = 10.0;

  @Override
  public Ruling rule(Case pass) {
    if (pass.cup().away()) {
      return Ruling.veto(1.0, 0.0);
    }
    if (pass.cup().backAt() == null) {
      return Ruling.FREE;
    }
    double backMin = pass.hoursSince(pass.cup().backAt()) * 60.0;
    return backMin < QUIET_MIN ? Ruling.veto("back", backMin, QUIET_MIN, "min") : Ruling.FREE;
  }
}
