package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.Size;
import org.junit.jupiter.api.Test;

class OrderDeskTest {
  private static final Instant NOW = Instant.parse("2027-01-10T08:00:00Z");
  private static final String GOOD =
      """
      {"id":"o-1","kind":"release","by":"gardener",
       "issued":"2027-01-10T07:59:00Z","expires":"2027-01-10T09:00:00Z"}""";

  private final OrderDesk desk = new OrderDesk();

  private OrderDesk.Verdict judge(String order) {
    return desk.judge(order.getBytes(StandardCharsets.UTF_8), false, NOW);
  }

  private void refused(String order, String id, String why) {
    var refused = assertInstanceOf(OrderDesk.Refused.class, judge(order));
    assertEquals(id, refused.receipt().id());
    assertEquals("refused", refused.receipt().outcome());
    assertTrue(refused.receipt().why().contains(why), refused.receipt().why());
  }

  @Test
  void freshOrderGoesToTheNextTick() {
    var accepted = assertInstanceOf(OrderDesk.Accepted.class, judge(GOOD));
    assertEquals("o-1", accepted.id());
    assertEquals(Instant.parse("2027-01-10T09:00:00Z"), accepted.expires());
  }

  @Test
  void staleOrderIsRefused() {
    refused(GOOD.replace("T09:00", "T08:00"), "o-1", "stale: it expired at 2027-01-10T08:00:00Z");
  }

  @Test
  void orderFromTheFutureIsRefused() {
    refused(GOOD.replace("T07:59", "T08:03"), "o-1", "in the future");
  }

  @Test
  void retainedOrderIsRefused() {
    var refused =
        assertInstanceOf(
            OrderDesk.Refused.class, desk.judge(GOOD.getBytes(StandardCharsets.UTF_8), true, NOW));
    assertTrue(refused.receipt().why().contains("retained"));
  }

  @Test
  void malformedOrdersAreRefusedWithWhatIsWrong() {
    refused("{\"id\":\"o-1\"", null, "must be JSON");
    refused("[1]", null, "must be a JSON object");
    refused("{\"id\":\"o-1\",\"id\":\"o-2\"}", null, "must be JSON");
    refused(GOOD.replace("\"o-1\"", "7"), null, "needs an id");
    refused(GOOD.replace("\"by\"", "\"who\""), "o-1", "needs by");
    refused(GOOD.replace("2027-01-10T09:00:00Z", "soon"), "o-1", "expires: \"soon\"");
    refused(GOOD.replace("T09:00", "T07:00"), "o-1", "expire after it is issued");
    refused("{\"id\":\"" + "x".repeat(70_000) + "\"}", null, "at most 65536");
    refused("[".repeat(5_000), null, "must be JSON");
  }

  @Property
  void noBytesBringItDown(@ForAll @Size(max = 200) byte[] bytes) {
    OrderDesk.Verdict verdict = desk.judge(bytes, false, NOW);
    var refused = assertInstanceOf(OrderDesk.Refused.class, verdict);
    assertNull(refused.receipt().id());
  }
}
