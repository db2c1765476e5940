package dev.cupwarden.core.limits;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import java.time.Duration;

/**
 * A cup to which water came by itself waits for a person; but one that has dried past its dry line
 * all the same, a day later, stands under no valve that leaks, and would die of a witness that was
 * wrong. It is told as leaking meanwhile.
 */
final class LeakyValveLimit implements Limit {
  /** A leak shows within a night, when nothing dries as fast as it drips: our choice. */
  private static final Duration A_DAY = Duration.ofHours(24);

  /** Whether a rescue may show by now that the valve shuts. */
  static boolean old(Latch latch, Case pass) {
    return latch.is(AlertCode.VALVE_LEAKING)
        && Duration.between(latch.since(), pass.at()).compareTo(A_DAY) >= 0;
  }

  @Override
  public Ruling rule(Case pass) {
    Latch latch = pass.cup().latch();
    return latch != null && old(latch, pass)
        ? Ruling.veto(latch.code().word(), latch.value(), latch.threshold(), "")
        : Ruling.FREE;
  }
}
