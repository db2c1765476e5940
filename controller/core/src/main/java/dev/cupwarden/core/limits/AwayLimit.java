package dev.cupwarden.core.limits;

import java.time.Instant;

/** A cup that is off the bench, or was at hand a moment ago, gets nothing. */
final class AwayLimit implements Limit {
  /** As long as a lifted cup must stand quiet. */
  private static final double QUIET_MIN = 10.0;

  @Override
  public Ruling rule(Case pass) {
    if (pass.cup().away()) {
      return Ruling.veto(1.0, 0.0);
    }
    Ruling back = quiet(pass, "back", pass.cup().backAt());
    return back.equals(Ruling.FREE) ? quiet(pass, "cover", pass.cup().coverAt()) : back;
  }

  private static Ruling quiet(Case pass, String detail, Instant since) {
    if (since == null) {
      return Ruling.FREE;
    }
    double quietMin = pass.hoursSince(since) * 60.0;
    return quietMin < QUIET_MIN ? Ruling.veto(detail, quietMin, QUIET_MIN, "min") : Ruling.FREE;
  }
}
