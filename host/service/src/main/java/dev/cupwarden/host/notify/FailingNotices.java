package dev.cupwarden.host.notify;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.host.store.Store;
import dev.cupwarden.host.watch.HostAlerts;
import dev.cupwarden.host.watch.HostAlerts.AlertContent;

/**
 * {@code notices-failing}: what people should be told does not reach them. It stands on the page of
 * each bench of which a notice failed until one has gone through and none waits on another way.
 */
final class FailingNotices {
  static final String CODE = AlertCode.NOTICES_FAILING.word();

  private final Store store;
  private final HostAlerts alerts;

  FailingNotices(Store store, HostAlerts alerts) {
    this.store = store;
    this.alerts = alerts;
  }

  /** That way did not take a notice of that bench. */
  void failed(String bench, String way, String why) {
    alerts.raised(
        new AlertContent(
            bench,
            CODE,
            store.notices().failing(bench),
            0,
            "Notices by " + way + " do not arrive, and are tried again each hour: " + why));
  }

  /** That way took a notice of that bench. */
  void wentThrough(String bench, String way) {
    if (alerts.isOpen(bench, CODE) && store.notices().failingOtherwise(bench, way) == 0) {
      alerts.over(new AlertContent(bench, CODE, 0, 0, "Notices arrive again."));
    }
  }
}
