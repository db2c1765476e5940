package dev.cupwarden.host.ingest;

import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.host.broker.HostMqttLink.Delivery;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Store;
import java.time.Instant;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import org.jdbi.v3.core.JdbiException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Hears what must be heard at once, or although it cannot be stored: beats and alerts. */
final class StandbyListener {
  private static final Logger LOG = LoggerFactory.getLogger(StandbyListener.class);
  private static final String BEAT = "/beat";
  private static final int MOST_RAISED = 1_000;

  private final Store store;
  private final AlertListener alertListener;
  private final BiConsumer<String, Beat> beats;
  private final MessageReader reader = new MessageReader();

  /** Overheard and not over yet. */
  private final Set<Alerts.Key> raised = new HashSet<>();

  private boolean storeIsAway;

  StandbyListener(Store store, AlertListener alertListener, BiConsumer<String, Beat> beats) {
    this.store = store;
    this.alertListener = alertListener;
    this.beats = beats;
  }

  /**
   * True if it was a beat; it has been passed on then, unless a broker had kept it from earlier.
   */
  boolean beat(Delivery delivery) {
    if (!delivery.topic().endsWith(BEAT)) {
      return false;
    }
    try {
      if (reader.read(delivery.topic(), delivery.payload()) instanceof BenchMessage.Beating said) {
        if (!delivery.retained()) {
          beats.accept(said.bench(), said.beat());
        }
        return true;
      }
    } catch (MalformedException broken) {
      LOG.debug("no beat; it is set aside as all that cannot be read", broken);
    }
    return false;
  }

  /** Passes on a beat, and an alert that is news; what else it may be is for the store alone. */
  synchronized void overhear(Delivery delivery) {
    if (beat(delivery)) {
      return;
    }
    try {
      if (reader.read(delivery.topic(), delivery.payload()) instanceof BenchMessage.Happened said
          && said.alert().isPresent()) {
        overhear(said.bench(), said.alert().get(), said.event().at());
      }
    } catch (MalformedException broken) {
      LOG.debug("not understood, and not stored yet", broken);
    }
  }

  private void overhear(String bench, AlertNotice notice, Instant at) {
    Alerts.Key key = Alerts.Key.of(bench, notice);
    Optional<AlertRow> stored = stored(key);
    if (stored.filter(row -> !row.at().isBefore(at)).isPresent()) {
      return;
    }
    boolean wasRaised =
        raised.contains(key) || stored.filter(row -> row.state().equals("raised")).isPresent();
    if (notice.state().equals("raised") && raised.size() < MOST_RAISED) {
      raised.add(key);
      alertListener.unstored(bench, notice, at);
    } else if (notice.state().equals("cleared") && wasRaised) {
      raised.remove(key);
      alertListener.unstored(bench, notice, at);
    }
  }

  /** A database that is away is asked once, since each asking waits. */
  private Optional<AlertRow> stored(Alerts.Key key) {
    if (storeIsAway) {
      return Optional.empty();
    }
    try {
      return store.alerts().find(key);
    } catch (JdbiException away) {
      LOG.debug("what was told before is not known", away);
      storeIsAway = true;
      return Optional.empty();
    }
  }

  /** Listening begins anew. */
  synchronized void begin() {
    storeIsAway = false;
    raised.clear();
  }
}
