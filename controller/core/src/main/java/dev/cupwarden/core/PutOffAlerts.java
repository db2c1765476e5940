package dev.cupwarden.core;

import dev.cupwarden.core.alerts.PuttingOff;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** A person who knows of an alert need not hear of it again for a while. */
final class PutOffAlerts {
  private static final Duration LONGEST = Duration.ofDays(7);

  private PutOffAlerts() {}

  static Receipt putOff(BenchDraft draft, Order.Later order) throws OrderRefused {
    if (order.cup().isPresent()) {
      draft.cup(order.cup().get());
    }
    Instant until = order.until();
    if (!until.isAfter(draft.at)) {
      throw new OrderRefused("until: " + until + " is not later than now, " + draft.at);
    }
    if (until.isAfter(draft.at.plus(LONGEST))) {
      throw new OrderRefused(
          "until: an alert is put off for at most " + LONGEST.toDays() + " days, not to " + until);
    }
    PuttingOff asked = new PuttingOff(order.alert(), order.cup(), order.tank(), until);
    Optional<String> refusal = asked.refusal(draft.alerts);
    if (refusal.isPresent()) {
      throw new OrderRefused("alert: " + refusal.get());
    }
    draft.alerts = asked.in(draft.alerts);
    return Receipt.done(order.id());
  }
}
