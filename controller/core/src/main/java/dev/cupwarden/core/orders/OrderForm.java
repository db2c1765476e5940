package dev.cupwarden.core.orders;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quoted;
import java.nio.charset.StandardCharsets;
import java.util.Map;

/**
 * What any order must be like, whatever it asks: small, flat, and of texts that can be stored and
 * told on. Whoever puts an order by checks this first; what is put by is told to a host in full,
 * and a host that cannot store it takes nothing that comes after.
 */
public final class OrderForm {
  /** A few names and numbers; an order to a hundred cups is shorter. Our choice. */
  public static final int MOST_BYTES = 4096;

  /** An order holds texts, numbers, a list, or the lines of a cup by stage. */
  private static final int DEEPEST = 8;

  private OrderForm() {}

  /**
   * Refuses what no order may be.
   *
   * @throws OrderRefused with one sentence
   */
  public static void check(JsonNode written) throws OrderRefused {
    name("cup", written.get("cup"));
    name("tank", written.get("tank"));
    if (written.path("cups").isArray()) {
      for (JsonNode cup : written.get("cups")) {
        name("cups", cup);
      }
    }
    plain("an order", written, DEEPEST);
    int bytes = written.toString().getBytes(StandardCharsets.UTF_8).length;
    if (bytes > MOST_BYTES) {
      throw new OrderRefused(
          "an order has at most " + MOST_BYTES + " bytes, this one has " + bytes);
    }
  }

  private static void plain(String where, JsonNode value, int deeper) throws OrderRefused {
    if (deeper == 0) {
      throw new OrderRefused("an order is not nested so deeply");
    }
    if (value.isTextual() && !Names.isPlain(value.textValue())) {
      throw new OrderRefused(where + ": a text without control characters is expected");
    }
    for (Map.Entry<String, JsonNode> field : value.properties()) {
      if (!Names.isPlain(field.getKey())) {
        throw new OrderRefused("the name of a field holds a control character");
      }
      plain(Quoted.line(field.getKey(), 40), field.getValue(), deeper - 1);
    }
    if (value.isArray()) {
      for (JsonNode element : value) {
        plain(where, element, deeper - 1);
      }
    }
  }

  private static void name(String field, JsonNode value) throws OrderRefused {
    if (value != null && value.isTextual() && !Names.isSafe(value.textValue())) {
      throw new OrderRefused(
          field + ": " + Quoted.text(value.textValue()) + " cannot be a name: " + Names.RULE);
    }
  }
}
