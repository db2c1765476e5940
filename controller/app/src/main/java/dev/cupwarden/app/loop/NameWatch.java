package dev.cupwarden.app.loop;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Instant;
import java.util.function.BooleanSupplier;

/**
 * Tells of another controller that goes by this bench's name. Both water on: what each has wired is
 * its own, and which of them is wrong only a person knows.
 */
final class NameWatch {
  private final String bench;
  private final OwnAlerts alerts;
  private volatile BooleanSupplier rival = () -> false;

  NameWatch(String bench, OwnAlerts alerts) {
    this.bench = bench;
    this.alerts = alerts;
  }

  /** From now on this knows whether there is one. */
  void ask(BooleanSupplier knows) {
    rival = knows;
  }

  void look(Instant at) {
    if (rival.getAsBoolean()) {
      alerts.raise(
          AlertCode.TWO_CONTROLLERS,
          at,
          2,
          1,
          "Two controllers call themselves "
              + bench
              + " and both water: stop one, or give one another name in its bench file.");
    } else {
      alerts.clear(AlertCode.TWO_CONTROLLERS, at, 1);
    }
  }
}
