package dev.cupwarden.core.limits;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.dosing.PumpTrial;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.units.Elapsed;

/**
 * Nothing runs over a leak, by outputs that do not answer, with a latch that waits for a person, to
 * a cup without a valve, or from an empty tank: one whose cup may have nothing that the tanks still
 * hold. A latch of the pump that a trial may end lets one through when that is due.
 */
final class HardwareLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    if (pass.bench().leak().off()) {
      return leak(pass);
    }
    if (pass.bench().boardFault()) {
      return Ruling.veto(AlertCode.BOARD_FAULT.word(), 1.0, 0.0, "");
    }
    Latch latch = pass.bench().latch();
    if (latch == null || (pass.bench().trial() && PumpTrial.mayEnd(latch))) {
      latch = ofCup(pass);
    }
    if (latch == null && !pass.cup().reached()) {
      return Ruling.veto("no-valve", 1.0, 0.0, "");
    }
    if (latch != null) {
      return Ruling.veto(latch.code().word(), latch.value(), latch.threshold(), "");
    }
    double leastMl = pass.proposal().leastMl();
    Supply supply = pass.bench().supply();
    if (supply.hasPlain() && supply.plainMl() >= leastMl) {
      return Ruling.FREE;
    }
    double suitsMl = supply.undilutedMl(Limits.strongest(pass));
    return suitsMl < leastMl
        ? Ruling.veto(AlertCode.TANK_EMPTY.word(), suitsMl, leastMl, "mL")
        : Ruling.FREE;
  }

  private static Latch ofCup(Case pass) {
    Latch latch = pass.cup().latch();
    if (latch == null || LeakyValveLimit.old(latch, pass)) {
      return null;
    }
    boolean tried = pass.bench().trial() && latch.is(AlertCode.DOSE_SHORT);
    return tried ? null : latch;
  }

  private static Ruling leak(Case pass) {
    LeakWatch leak = pass.bench().leak();
    return switch (leak.stage()) {
      case UNREAD -> Ruling.veto("leak-unread", 1.0, 0.0, "");
      case DRYING ->
          Ruling.veto(
              "leak-drying",
              Elapsed.hours(leak.since(), pass.at()),
              (double) LeakWatch.DRY_FOR.toHours(),
              "h");
      case UNEXPLAINED ->
          Ruling.veto("leak-unexplained", leak.balance().unexplainedMl(), 0.0, "mL");
      case PERSON -> Ruling.veto("leak-again", 1.0, 0.0, "");
      default -> Ruling.veto(AlertCode.LEAK.word(), 1.0, 0.0, "");
    };
  }
}
