package dev.cupwarden.host.notify;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.ingest.Herald;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.Consumer;
import org.jdbi.v3.core.Handle;

/**
 * Alerts of the host's own about a bench: in the store, among the bench's events, on the page and
 * to people, and told again daily while they stand. They live in the store, so a restart neither
 * forgets nor repeats them.
 */
final class OwnAlerts {
  private static final Duration DAILY = Duration.ofDays(1);

  private final Store store;
  private final Herald herald;
  private final Consumer<LiveEvent> live;

  OwnAlerts(Store store, Herald herald, Consumer<LiveEvent> live) {
    this.store = store;
    this.herald = herald;
    this.live = live;
  }

  boolean isOpen(Alerts.Key key) {
    return store.alerts().find(key).filter(AlertRow::isOpen).isPresent();
  }

  /** Raises it, or tells it again where it stands and was told a day ago. */
  void raise(Alerts.Key key, AlertNotice notice, Instant at) {
    Optional<AlertRow> open = store.alerts().find(key).filter(AlertRow::isOpen);
    if (open.isEmpty()) {
      tell(key, notice, at);
    } else if (!at.isBefore(open.get().at().plus(DAILY))) {
      tell(key, since(notice, of(open.get()).since()).toldAgain(), at);
    }
  }

  /** Clears it where it stands. */
  void clear(Alerts.Key key, AlertNotice notice, Instant at) {
    if (isOpen(key)) {
      tell(key, notice, at);
    }
  }

  private void tell(Alerts.Key key, AlertNotice notice, Instant at) {
    Event[] told = new Event[1];
    store.write(handle -> told[0] = write(handle, key, notice, at));
    live.accept(LiveEvent.event(key.bench(), told[0]));
  }

  private Event write(Handle handle, Alerts.Key key, AlertNotice notice, Instant at) {
    String json = Json.written(notice);
    store
        .alerts()
        .put(handle, key, notice.state(), at, json)
        .filter(before -> notice.again() || !before.equals(notice.state()))
        .ifPresent(before -> herald.alert(handle, key.bench(), before, notice));
    EventRow row = store.events().insertOwn(handle, key.bench(), at, "alert", null, json);
    return new Event(
        row.epoch(), row.seq(), row.at(), row.kind(), null, Json.MAPPER.valueToTree(notice));
  }

  private static AlertNotice of(AlertRow row) {
    try {
      return Json.MAPPER.readValue(row.notice(), AlertNotice.class);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not a notice", damaged);
    }
  }

  private static AlertNotice since(AlertNotice notice, Instant since) {
    return new AlertNotice(
        notice.code(),
        notice.cup(),
        notice.state(),
        since,
        notice.value(),
        notice.threshold(),
        notice.whatToDo());
  }
}
