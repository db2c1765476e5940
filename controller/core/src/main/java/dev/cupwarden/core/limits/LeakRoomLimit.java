package dev.cupwarden.core.limits;

import dev.cupwarden.core.dosing.LeakWatch;
import dev.cupwarden.core.units.Elapsed;

/**
 * After a leak one pass goes out at a time over the whole bench, the sensor is watched before the
 * next, and all of them together are less than the tray has room for.
 */
final class LeakRoomLimit implements Limit {
  @Override
  public Ruling rule(Case pass) {
    LeakWatch leak = pass.bench().leak();
    if (!leak.onRescue()) {
      return Ruling.FREE;
    }
    return leak.watching(pass.at())
        ? Ruling.veto(
            "leak-watch",
            Elapsed.minutes(leak.lastAt(), pass.at()),
            (double) LeakWatch.WATCHED.toMinutes(),
            "min")
        : Ruling.cap(leak.leftMl(), leak.givenMl(), leak.mostMl(), "leak-room", "mL");
  }
}
