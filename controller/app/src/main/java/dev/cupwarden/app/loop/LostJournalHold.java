package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.messages.Json;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/**
 * The hold on a bench whose true journal is lost, put in as an order like a person's: nothing is
 * pumped, and what is decided and shown says so.
 */
final class LostJournalHold {
  private static final String ID = "controller-store-";

  /** Then it is put in anew. */
  private static final Duration AHEAD = Duration.ofDays(1);

  private LostJournalHold() {}

  /** Whether an order is the loop's own, so that nobody need be told what became of it. */
  static boolean owns(String id) {
    return id != null && id.startsWith(ID);
  }

  /**
   * An order to put in now, so that nothing is watered.
   *
   * @param held the bench's hold; null where there is none
   * @return none when a hold as strict is in force
   */
  static Optional<JsonNode> hold(Instant at, Hold held) {
    if (held != null && !held.feedOnly() && !held.rescue() && held.holdsAt(at)) {
      return Optional.empty();
    }
    return Optional.of(
        Json.MAPPER
            .createObjectNode()
            .put("id", ID + at)
            .put("kind", "hold")
            .put("until", at.plus(AHEAD).toString())
            .put("feed_only", false)
            .put("rescue", false));
  }
}
