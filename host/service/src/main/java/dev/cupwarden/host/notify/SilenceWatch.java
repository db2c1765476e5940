package dev.cupwarden.host.notify;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.ingest.Herald;
import dev.cupwarden.host.ingest.LiveEvent;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Benches.Hearing;
import dev.cupwarden.host.store.Store;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/**
 * Raises {@code controller-silent} for a bench that has gone, or that is connected without anything
 * coming from it, and clears it when the bench is heard again.
 */
public final class SilenceWatch {
  /** A controller that restarts is back within this. */
  static final Duration GONE = Duration.ofMinutes(2);

  /** What is connected says something at each tick; this much longer is no longer chance. */
  static final Duration STILL = Duration.ofMinutes(4);

  private static final String CODE = "controller-silent";
  private static final double S_PER_MIN = 60;

  private final Store store;
  private final InstantSource clock;
  private final InstantSource benchClock;
  private final OwnAlerts alerts;
  private final BooleanSupplier connected;
  private final Instant started;
  private final Map<String, Instant> raised = new HashMap<>();

  /**
   * @param clock this machine's time, by which silence is measured
   * @param benchClock the benches' time, in which alerts are written
   * @param connected whether this host is connected to the broker
   */
  public SilenceWatch(
      Store store,
      InstantSource clock,
      InstantSource benchClock,
      Herald herald,
      Consumer<LiveEvent> live,
      BooleanSupplier connected) {
    this.store = store;
    this.clock = clock;
    this.benchClock = benchClock;
    this.alerts = new OwnAlerts(store, herald, live);
    this.connected = connected;
    this.started = clock.instant();
  }

  /** How long it has been silent, and how long is too long. */
  record Silence(Duration lasted, Duration limit, boolean online) {
    boolean isTooLong() {
      return lasted.compareTo(limit) >= 0;
    }
  }

  /** Looks at every bench. */
  public void run() {
    store.benches().hearings().forEach(this::look);
  }

  private void look(Hearing bench) {
    Instant now = clock.instant();
    Alerts.Key key = new Alerts.Key(bench.bench(), CODE, Optional.empty());
    boolean open = alerts.isOpen(key);
    Silence silence = judge(bench, now);
    if (silence.isTooLong()) {
      if (!open) {
        raised.put(bench.bench(), now);
      }
      alerts.raise(key, notice("raised", silence), benchClock.instant());
    } else if (open && heardSinceRaised(bench)) {
      alerts.clear(key, notice("cleared", silence), benchClock.instant());
    }
  }

  private boolean heardSinceRaised(Hearing bench) {
    Instant since = raised.getOrDefault(bench.bench(), started);
    return bench.heard().filter(heard -> heard.isAfter(since)).isPresent();
  }

  /** Silence before this host began to listen does not count: nobody could have heard. */
  Silence judge(Hearing bench, Instant now) {
    Instant heard = later(bench.heard().orElse(started), started);
    boolean offline = "offline".equals(bench.presence());
    Instant turned = later(bench.turned().orElse(started), started);
    if (offline && bench.heard().filter(turned::isBefore).isEmpty()) {
      return new Silence(Duration.between(turned, now), GONE, false);
    }
    Duration ticks = Duration.ofSeconds((long) (2 * tickS(bench.status()) + S_PER_MIN));
    boolean patient = connected.getAsBoolean() && ticks.compareTo(STILL) > 0;
    return new Silence(Duration.between(heard, now), patient ? ticks : STILL, true);
  }

  private static Instant later(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  private static double tickS(String status) {
    if (status == null) {
      return 0;
    }
    try {
      JsonNode tick = Json.MAPPER.readTree(status).path("tick_s");
      return tick.asDouble();
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not JSON", damaged);
    }
  }

  private AlertNotice notice(String state, Silence silence) {
    String whatToDo =
        !connected.getAsBoolean()
            ? "The host does not reach the broker: look at the network between them."
            : silence.online()
                ? "Connected, but nothing comes: look at the controller's log, or restart it."
                : "Look whether the controller has power and network.";
    return new AlertNotice(
        CODE,
        null,
        state,
        benchClock.instant(),
        silence.lasted().toSeconds() / S_PER_MIN,
        silence.limit().toSeconds() / S_PER_MIN,
        whatToDo);
  }
}
