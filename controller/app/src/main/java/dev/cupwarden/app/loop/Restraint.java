package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.orders.Hold;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * The loop's own wish that nothing be watered. It goes in as a hold, the way a person's does, so
 * that every cup's reasons show it and a replay of the journal comes to the same decisions.
 */
final class Restraint {
  /** Ids of the loop's own orders begin so; nobody else is told what became of them. */
  static final String ID = "controller-";

  private static final Duration AHEAD = Duration.ofDays(1);

  private Restraint() {}

  static boolean owns(String id) {
    return id != null && id.startsWith(ID);
  }

  /**
   * A hold to put in now, unless one that a person gave is as strict already.
   *
   * @param because a word for the order's id
   * @param rescue whether a cup past its dry line may still get water
   * @param inForce the bench's hold; null where there is none
   */
  static Optional<JsonNode> hold(String because, boolean rescue, Instant at, Hold inForce) {
    // Renewed before it ends, and not at every tick.
    Instant enough = at.plus(AHEAD.dividedBy(2));
    if (inForce != null
        && !inForce.feedOnly()
        && (rescue || !inForce.rescue())
        && inForce.holdsAt(enough)) {
      return Optional.empty();
    }
    return Optional.of(
        Json.MAPPER
            .createObjectNode()
            .put("id", ID + because + "-" + at)
            .put("kind", "hold")
            .put("until", at.plus(AHEAD).toString())
            .put("rescue", rescue));
  }

  /** The end of such a hold, when it is the loop's own that is in force. */
  static JsonNode release(String because, Instant at) {
    return Json.MAPPER
        .createObjectNode()
        .put("id", ID + because + "-over-" + at)
        .put("kind", "release");
  }
}
