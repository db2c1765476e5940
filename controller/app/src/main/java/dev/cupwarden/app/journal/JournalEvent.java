package dev.cupwarden.app.journal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Decision;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.RootsSeen;
import java.time.Instant;
import java.util.List;

/**
 * An event that has no number yet; the journal numbers it in the transaction that makes it true.
 *
 * @param kind {@code dose}, {@code alert}, {@code receipt}, {@code change} or {@code decision}
 * @param cup whose; null for the whole bench
 */
public record JournalEvent(Instant at, String kind, String cup, JsonNode data) {
  public static JournalEvent of(Instant at, Dose dose) {
    return new JournalEvent(at, "dose", dose.cup(), Json.MAPPER.valueToTree(dose));
  }

  public static JournalEvent of(Instant at, AlertNotice alert) {
    return new JournalEvent(at, "alert", alert.cup(), Json.MAPPER.valueToTree(alert));
  }

  public static JournalEvent of(Instant at, Receipt receipt) {
    return new JournalEvent(at, "receipt", null, Json.MAPPER.valueToTree(receipt));
  }

  public static JournalEvent of(Instant at, String cup, Decision decision) {
    return new JournalEvent(at, "decision", cup, Json.MAPPER.valueToTree(decision));
  }

  /** As a change: {@code {"change": "roots-seen", "stage": …, "day": …, "foretold": …}}. */
  public static JournalEvent of(Instant at, RootsSeen seen) {
    ObjectNode data = Json.MAPPER.createObjectNode().put("change", "roots-seen");
    data.setAll((ObjectNode) Json.MAPPER.valueToTree(seen));
    return new JournalEvent(at, "change", seen.cup(), data.without(List.of("cup")));
  }

  /** A change of the bench that is none of the others: {@code {"change": what, "detail": …}}. */
  public static JournalEvent change(Instant at, String what, String detail) {
    return new JournalEvent(
        at,
        "change",
        null,
        Json.MAPPER.createObjectNode().put("change", what).put("detail", detail));
  }
}
