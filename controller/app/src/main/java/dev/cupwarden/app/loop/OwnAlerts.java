package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.Journal;
import dev.cupwarden.app.journal.JournalEvent;
import dev.cupwarden.core.alerts.AlertBook;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.alerts.Condition;
import dev.cupwarden.core.alerts.Conditions;
import dev.cupwarden.core.alerts.LastTold;
import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.alerts.PuttingOff;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderReader;
import dev.cupwarden.core.orders.OrderRefused;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Alerts about the controller itself: what the core cannot know, told in the same words and told
 * again by the same rules. One that was put off is told once more after a restart.
 */
final class OwnAlerts {
  /** The codes that it may be told by; the core has others. */
  static final List<AlertCode> CODES =
      List.of(
          AlertCode.CLOCK,
          AlertCode.STORE_FULL,
          AlertCode.PUMP_RUNNING_ON,
          AlertCode.BOARD_FAULT,
          AlertCode.INPUT_SET_ASIDE,
          AlertCode.TWO_CONTROLLERS);

  /** More than a usual tick: so that no day passes without a word. */
  private static final Duration UNTIL_NEXT_LOOK = Duration.ofMinutes(10);

  private SortedMap<String, OpenAlert> open = new TreeMap<>();
  private final List<AlertNotice> untold = new ArrayList<>();
  private final List<Receipt> receipts = new ArrayList<>();

  /** It was raised before this start and not cleared: what no longer is so will be. */
  void stands(Journal.ToldAlert told) {
    AlertNotice notice = told.notice();
    OpenAlert alert =
        new OpenAlert(
            notice.code(),
            null,
            notice.state(),
            notice.since(),
            null,
            new LastTold(told.at(), notice, null));
    open.put(notice.code(), alert);
  }

  void raise(AlertCode code, Instant at, double value, double threshold, String whatToDo) {
    judge(new Condition(code, null, Condition.Level.ON, value, threshold, whatToDo), at);
  }

  void clear(AlertCode code, Instant at, double value) {
    OpenAlert was = open.get(code.word());
    if (was != null) {
      AlertNotice last = was.told().notice();
      judge(
          new Condition(code, null, Condition.Level.OFF, value, last.threshold(), last.whatToDo()),
          at);
    }
  }

  private void judge(Condition condition, Instant at) {
    Conditions now = new Conditions(open);
    now.add(condition);
    AlertBook.Page page = AlertBook.judge(open, now, at, Set.of(), UNTIL_NEXT_LOOK);
    open = page.open();
    untold.addAll(page.changes());
  }

  /** Takes out of the orders those that put one of these off; the core knows nothing of them. */
  void putOff(Instant at, List<JsonNode> orders) {
    for (Iterator<JsonNode> left = orders.iterator(); left.hasNext(); ) {
      JsonNode written = left.next();
      boolean own =
          written.path("kind").asText().equals("later")
              && !written.has("cup")
              && open.containsKey(written.path("alert").asText());
      if (own) {
        left.remove();
        receipts.add(putOff(at, written));
      }
    }
  }

  private Receipt putOff(Instant at, JsonNode written) {
    try {
      Order.Later order = (Order.Later) OrderReader.read(written);
      Optional<Instant> expires = OrderReader.validity(written).expires();
      if (expires.isPresent() && !at.isBefore(expires.get())) {
        throw new OrderRefused("the order expired at " + expires.get());
      }
      PuttingOff asked =
          new PuttingOff(order.alert(), Optional.empty(), order.tank(), order.until());
      Optional<String> refusal = asked.refusal(open, at);
      if (refusal.isPresent()) {
        throw new OrderRefused(refusal.get());
      }
      open = asked.in(open);
      return Receipt.done(order.id());
    } catch (OrderRefused refused) {
      return Receipt.refused(OrderReader.idOf(written), refused.getMessage());
    }
  }

  /** What has changed and not been put down yet; {@link #told} empties it. */
  List<JournalEvent> untold(Instant at) {
    List<JournalEvent> events = new ArrayList<>();
    untold.forEach(notice -> events.add(JournalEvent.of(at, notice)));
    receipts.forEach(receipt -> events.add(JournalEvent.of(at, receipt)));
    return events;
  }

  void told() {
    untold.clear();
    receipts.clear();
  }
}
