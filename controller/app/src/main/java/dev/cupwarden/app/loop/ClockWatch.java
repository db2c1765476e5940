package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.app.clock.SteadyClock;
import dev.cupwarden.core.alerts.AlertCode;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;

/** Tells of a clock that cannot be trusted, until a person has looked at it. */
final class ClockWatch {
  /** Of an order. */
  private static final List<String> TIMES = List.of("issued", "expires", "until");

  private final SteadyClock clock;
  private final OwnAlerts alerts;

  ClockWatch(SteadyClock clock, OwnAlerts alerts) {
    this.clock = clock;
    this.alerts = alerts;
  }

  /**
   * Orders with their times as the bench's clock has them. Who gave them went by the wall clock,
   * and one of them may be what sets this right; judged by a clock that is hours off none would be
   * taken.
   */
  List<JsonNode> inOwnTime(List<JsonNode> orders) {
    Duration beyondWall = clock.beyondWall();
    boolean near = beyondWall.abs().toSeconds() <= SteadyClock.JUMP_S;
    return near ? orders : orders.stream().map(order -> moved(order, beyondWall)).toList();
  }

  private static JsonNode moved(JsonNode order, Duration by) {
    ObjectNode moved = order.deepCopy();
    for (String name : TIMES) {
      try {
        Instant time = OffsetDateTime.parse(order.path(name).asText()).toInstant().plus(by);
        moved.put(name, time.toString());
      } catch (DateTimeException notATime) {
        // It is missing, or what takes the order says what is wrong with it.
      }
    }
    return moved;
  }

  /**
   * Before each tick's decision.
   *
   * @param orders that the tick will take
   * @return whether the clock is in doubt
   */
  boolean look(Instant at, List<JsonNode> orders) {
    boolean personLooked =
        orders.stream().anyMatch(o -> o.path("kind").asText().equals("clear") && !o.has("cup"));
    if (!clock.trusted() && personLooked) {
      clock.acceptWall();
    }
    if (clock.trusted()) {
      alerts.clear(AlertCode.CLOCK, at, clock.aheadS());
    } else {
      alerts.raise(
          AlertCode.CLOCK,
          at,
          clock.aheadS(),
          SteadyClock.JUMP_S,
          "Check the controller's clock, set it if it is wrong, then clear; until then"
              + " only rescues are given.");
    }
    return !clock.trusted();
  }
}
