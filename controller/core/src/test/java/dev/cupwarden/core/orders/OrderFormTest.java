package dev.cupwarden.core.orders;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Names;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** What every order must be like before anything is put by. */
class OrderFormTest {
  private static ObjectNode order(String id) {
    return Json.MAPPER.createObjectNode().put("id", id).put("kind", "away").put("cup", "A1");
  }

  private static String refusal(JsonNode order) {
    return assertThrows(OrderRefused.class, () -> OrderReader.read(order)).getMessage();
  }

  @Test
  void namesAndIdsHaveOneRule() {
    assertTrue(Names.isSafe("A1"));
    assertFalse(Names.isSafe("A1\n"));
    assertTrue(Names.isId("o-1: a morning's"));
    assertTrue(Names.isId("x".repeat(64)));
    for (String odd :
        new String[] {"", " ", "x".repeat(65), "o\u0000", "o\n", "o\u2028", "\ud800"}) {
      assertFalse(Names.isId(odd), odd);
    }
  }

  @Test
  void anIdOf65CharactersIsRefusedAndNotRepeated() throws Exception {
    assertDoesNotThrow(() -> OrderReader.read(order("x".repeat(64))));
    assertEquals("id: " + Names.ID_RULE, refusal(order("x".repeat(65))));
    assertEquals(null, OrderReader.idOf(order("x".repeat(65))));
  }

  @Test
  void aCupWithALineFeedIsRefusedWithTheRule() {
    String why = refusal(order("o").put("cup", "A1\n"));
    assertTrue(why.startsWith("cup: \"A1?\" cannot be a name"), why);
    ObjectNode many = order("o");
    many.remove("cup");
    many.putArray("cups").add("A1").add("A2\n");
    assertTrue(refusal(many).startsWith("cups: "), refusal(many));
  }

  @Test
  void noTextOfAnOrderHoldsAControlCharacter() {
    assertTrue(refusal(order("o").put("by", "me\u0000")).startsWith("by: "));
    assertTrue(refusal(order("o").put("odd\u0007", 1)).contains("control character"));
    ObjectNode deep = order("o");
    deep.putObject("lines").putArray("struck").add("a\nb");
    assertTrue(refusal(deep).startsWith("struck: "));
  }

  @Test
  void nothingLargeOrDeepIsTaken() throws JsonProcessingException {
    assertTrue(refusal(order("o").put("by", "x".repeat(5_000))).contains("at most 4096 bytes"));
    JsonNode deep =
        Json.MAPPER.readTree(
            "{\"id\":\"o\",\"kind\":\"away\",\"x\":" + "[".repeat(900) + "]".repeat(900) + "}");
    assertEquals("an order is not nested so deeply", refusal(deep));
  }

  @Test
  void anOrderIsGoodForTwoDaysAtMost() throws OrderRefused {
    Instant now = Instant.parse("2027-02-14T08:00:00Z");
    ObjectNode order = order("o").put("issued", "2027-02-14T07:00:00Z");
    order.put("expires", "2027-02-16T07:00:00Z");
    assertFalse(OrderReader.validity(order).tooLong(now));
    order.put("expires", "2027-02-16T07:00:01Z");
    assertTrue(OrderReader.validity(order).tooLong(now));
    order.remove("issued");
    assertFalse(OrderReader.validity(order).tooLong(now), "counted from now");
  }

  @Test
  void whatStopsWaterComesFirst() {
    assertTrue(OrderReader.stopsWater(order("o")));
    assertTrue(OrderReader.stopsWater(order("o").put("kind", "hold")));
    assertFalse(OrderReader.stopsWater(order("o").put("kind", "dose")));
    assertFalse(OrderReader.stopsWater(order("o").put("kind", "back")));
  }
}
