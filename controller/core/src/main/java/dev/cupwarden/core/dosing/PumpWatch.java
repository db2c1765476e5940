package dev.cupwarden.core.dosing;

import dev.cupwarden.core.alerts.AlertCode;

/**
 * What stands between a pump that was stopped for every cup and a bench that dies of it.
 *
 * @param leak where water was found where none belongs
 * @param trial where nothing arrived
 * @param boardFault whether the board could not do as it was told
 */
public record PumpWatch(LeakWatch leak, PumpTrial trial, boolean boardFault) {
  public static final PumpWatch NONE = new PumpWatch(LeakWatch.NONE, PumpTrial.NONE, false);

  /**
   * What a journal kept of it.
   *
   * @param kept null in one that knows none: a leak was a latch of the pump then
   */
  public static PumpWatch of(PumpWatch kept, Latch pump) {
    if (kept != null) {
      return kept;
    }
    return isLeak(pump)
        ? new PumpWatch(LeakWatch.wetSince(pump.since()), PumpTrial.NONE, false)
        : NONE;
  }

  /** The pump's latch; null for what is kept as a leak here. */
  public static Latch latch(Latch pump) {
    return isLeak(pump) ? null : pump;
  }

  /** So in journals that know no watch. */
  private static boolean isLeak(Latch pump) {
    return pump != null && pump.is(AlertCode.LEAK);
  }
}
