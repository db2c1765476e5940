package dev.cupwarden.app.link;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Sentences;
import dev.cupwarden.core.orders.Order;
import dev.cupwarden.core.orders.OrderForm;
import dev.cupwarden.core.orders.OrderReader;
import dev.cupwarden.core.orders.OrderRefused;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quoted;
import java.io.IOException;
import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.Optional;

/**
 * Looks at an order as it comes off the wire: is it one, and is it still meant? What it asks for is
 * not judged here.
 */
final class OrderIntake {
  /** What became of it. */
  sealed interface Verdict {}

  /** It may go to the next tick. */
  record Accepted(String id, Instant expires, boolean stopsWater, String body) implements Verdict {}

  /** It changes nothing. */
  record Refused(Receipt receipt) implements Verdict {}

  private static final class Unfit extends Exception {
    private static final long serialVersionUID = 1L;

    Unfit(String why) {
      super(why);
    }
  }

  /**
   * @param retained whether the broker has kept it for whoever comes later
   * @param now the bench's time
   */
  Verdict judge(byte[] payload, boolean retained, Instant now) {
    JsonNode order;
    try {
      order = parse(payload);
    } catch (Unfit e) {
      return new Refused(Receipt.refused(null, e.getMessage()));
    }
    String id = OrderReader.idOf(order);
    try {
      if (id == null) {
        throw new Unfit("an order needs an id: " + Names.ID_RULE);
      }
      OrderForm.check(order);
      if (retained) {
        throw new Unfit("a retained order is refused: it could come again long after it was meant");
      }
      text(order, "kind");
      text(order, "by");
      Instant expires = stillMeant(order, now);
      return new Accepted(id, expires, OrderReader.stopsWater(order), order.toString());
    } catch (Unfit | OrderRefused e) {
      return new Refused(Receipt.refused(id, e.getMessage()));
    }
  }

  private static JsonNode parse(byte[] payload) throws Unfit {
    if (payload.length > OrderForm.MOST_BYTES) {
      throw new Unfit(
          "an order of " + payload.length + " bytes is refused; at most " + OrderForm.MOST_BYTES);
    }
    try {
      JsonNode order = Json.MAPPER.readTree(payload);
      if (order == null || !order.isObject()) {
        throw new Unfit("an order must be a JSON object");
      }
      return order;
    } catch (JsonProcessingException e) {
      throw new Unfit("an order must be JSON: " + Quoted.line(e.getOriginalMessage(), 120));
    } catch (IOException e) {
      throw new Unfit("an order must be JSON in UTF-8: " + Quoted.line(e.getMessage(), 120));
    }
  }

  private static Instant stillMeant(JsonNode order, Instant now) throws Unfit {
    Instant issued = time(order, "issued");
    Instant expires = time(order, "expires");
    if (!expires.isAfter(issued)) {
      throw new Unfit("an order must expire after it is issued");
    }
    Order.Validity validity = new Order.Validity(Optional.of(issued), Optional.of(expires));
    if (validity.fromTheFuture(now)) {
      throw new Unfit("issued " + issued + ", which is in the future: it is " + now + " here");
    }
    if (!expires.isAfter(now)) {
      throw new Unfit(Sentences.expired(expires.toString()) + ", it is " + now + " here");
    }
    if (validity.tooLong(now)) {
      throw new Unfit(validity.tooLongWords());
    }
    return expires;
  }

  private static Instant time(JsonNode order, String key) throws Unfit {
    String written = text(order, key);
    try {
      return Instant.parse(written);
    } catch (DateTimeParseException e) {
      throw new Unfit(
          key + ": " + Quoted.text(written) + " is not a time such as 2027-02-14T08:00:00Z");
    }
  }

  private static String text(JsonNode order, String key) throws Unfit {
    JsonNode value = order.path(key);
    if (!value.isTextual() || value.textValue().isBlank()) {
      throw new Unfit("an order over the wire needs " + key);
    }
    return value.textValue();
  }
}
