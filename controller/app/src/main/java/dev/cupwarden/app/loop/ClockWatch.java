package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.clock.SteadyClock;
import dev.cupwarden.core.orders.Hold;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Tells of a clock that cannot be trusted, until a person has looked at it. While it, or the
 * journal, is in doubt the bench is held by an order of the loop's own.
 */
final class ClockWatch {
  private final SteadyClock clock;
  private final OwnAlerts alerts;
  private final boolean journalTrusted;
  private final Restraint restraint = new Restraint();

  /**
   * @param journalTrusted whether what was given is known; where it is not, nothing is
   */
  ClockWatch(SteadyClock clock, OwnAlerts alerts, boolean journalTrusted) {
    this.clock = clock;
    this.alerts = alerts;
    this.journalTrusted = journalTrusted;
  }

  /**
   * Before each tick's decision.
   *
   * @param orders that the tick will take
   * @param held the bench's hold; null where there is none
   * @return an order to add to them
   */
  Optional<JsonNode> look(Instant at, List<JsonNode> orders, Hold held) {
    boolean personLooked =
        orders.stream().anyMatch(o -> o.path("kind").asText().equals("clear") && !o.has("cup"));
    if (!clock.trusted() && personLooked) {
      clock.acceptWall();
    }
    if (!clock.trusted()) {
      alerts.raise(
          "clock",
          at,
          clock.aheadS(),
          SteadyClock.JUMP_S,
          "Set the controller's clock, then clear; until then only rescues are given.");
    } else {
      alerts.clear("clock", clock.aheadS());
    }
    if (!journalTrusted) {
      return restraint.hold("store", false, at, held);
    }
    return clock.trusted() ? restraint.over("clock", at) : restraint.hold("clock", true, at, held);
  }
}
