package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.orders.Hold;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * The loop's own wish that nothing be watered. It goes in as a hold, the way a person's does, so
 * that every cup's reasons show it and a replay of the journal comes to the same decisions. A hold
 * of a person that it covers is put back when it ends.
 */
final class Restraint {
  private static final String ID = "controller-";
  private static final Duration AHEAD = Duration.ofDays(1);

  /** Over before the next tick; a release would end the holds of single cups as well. */
  private static final Duration AT_ONCE = Duration.ofSeconds(1);

  private Hold own;
  private Hold covered;

  /** Whether an order is the loop's own, so that nobody need be told what became of it. */
  static boolean owns(String id) {
    return id != null && id.startsWith(ID);
  }

  /**
   * An order to put in now, so that nothing is watered.
   *
   * @param because a word for the order's id
   * @param rescue whether a cup past its dry line may still get water
   * @param held the bench's hold; null where there is none
   * @return none when a hold as strict is in force
   */
  Optional<JsonNode> hold(String because, boolean rescue, Instant at, Hold held) {
    boolean isOwn = held != null && held.equals(own);
    if (held != null && !held.feedOnly() && (rescue || !held.rescue())) {
      // Renewed in good time, and not at every tick; a person's stands for as long as it is meant.
      if (held.holdsAt(isOwn ? at.plus(AHEAD.dividedBy(2)) : at)) {
        return Optional.empty();
      }
    }
    if (!isOwn) {
      covered = held;
    }
    own = new Hold(at.plus(AHEAD), false, rescue);
    return Optional.of(order(because, at, own));
  }

  /** An order to put in now that the wish is over; none where what holds is not of this wish. */
  Optional<JsonNode> over(String because, Instant at, Hold held) {
    if (held == null || !held.equals(own)) {
      return Optional.empty();
    }
    own = null;
    boolean putBack = covered != null && covered.holdsAt(at.plus(AT_ONCE));
    Hold next = putBack ? covered : new Hold(at.plus(AT_ONCE), false, true);
    return Optional.of(order(because + "-over", at, next));
  }

  private static JsonNode order(String because, Instant at, Hold hold) {
    return Json.MAPPER
        .createObjectNode()
        .put("id", ID + because + "-" + at)
        .put("kind", "hold")
        .put("until", hold.until().toString())
        .put("feed_only", hold.feedOnly())
        .put("rescue", hold.rescue());
  }
}
