package dev.cupwarden.host.notify;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Optional;

/**
 * {@code notices-failing}: what people should be told does not reach them. It stands on the page of
 * each bench of which a notice failed until one has gone through and none waits on another way.
 */
final class FailingNotices {
  static final String CODE = "notices-failing";

  private final Store store;
  private final InstantSource benchClock;
  private final OwnAlerts alerts;

  /**
   * @param benchClock the benches' time, in which alerts are written
   */
  FailingNotices(Store store, InstantSource benchClock, OwnAlerts alerts) {
    this.store = store;
    this.benchClock = benchClock;
    this.alerts = alerts;
  }

  /** That way did not take a notice of that bench. */
  void failed(String bench, String way, String why) {
    Instant at = benchClock.instant();
    alerts.raise(
        key(bench),
        notice(
            "raised",
            at,
            store.notices().failing(bench),
            "Notices by " + way + " do not arrive, and are tried again each hour: " + why),
        at);
  }

  /** That way took a notice of that bench. */
  void wentThrough(String bench, String way) {
    if (alerts.isOpen(key(bench)) && store.notices().failingOtherwise(bench, way) == 0) {
      Instant at = benchClock.instant();
      alerts.clear(key(bench), notice("cleared", at, 0, "Notices arrive again."), at);
    }
  }

  private static Alerts.Key key(String bench) {
    return new Alerts.Key(bench, CODE, Optional.empty());
  }

  private static AlertNotice notice(String state, Instant at, long waiting, String whatToDo) {
    return new AlertNotice(CODE, null, state, at, waiting, 0, whatToDo);
  }
}
