package dev.cupwarden.core.tick;

import dev.cupwarden.core.alerts.PuttingOff;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderRefused;
import java.util.Optional;

/** A person who knows of an alert need not hear of it again for a while. */
final class PutOffAlerts {
  private PutOffAlerts() {}

  static Receipt putOff(BenchDraft draft, Order.Later order) throws OrderRefused {
    if (order.cup().isPresent()) {
      draft.cup(order.cup().get());
    }
    PuttingOff asked = new PuttingOff(order.alert(), order.cup(), order.tank(), order.until());
    Optional<String> refusal = asked.refusal(draft.alerts, draft.at);
    if (refusal.isPresent()) {
      throw new OrderRefused(refusal.get());
    }
    draft.alerts = asked.in(draft.alerts);
    return Receipt.done(order.id());
  }
}
