package dev.cupwarden.app.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.longrun.Fuzz;
import dev.cupwarden.core.longrun.Slips;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

class OrderIntakeTest {
  private static final Instant NOW = Instant.parse("2027-01-10T08:00:00Z");
  private static final String GOOD =
      """
      {"id":"o-1","kind":"release","by":"gardener",
       "issued":"2027-01-10T07:59:00Z","expires":"2027-01-10T09:00:00Z"}""";

  private final OrderIntake intake = new OrderIntake();

  private OrderIntake.Verdict judge(String order) {
    return intake.judge(order.getBytes(StandardCharsets.UTF_8), false, NOW);
  }

  private void refused(String order, String id, String why) {
    var refused = assertInstanceOf(OrderIntake.Refused.class, judge(order));
    assertEquals(id, refused.receipt().id());
    assertEquals("refused", refused.receipt().outcome());
    assertTrue(refused.receipt().why().contains(why), refused.receipt().why());
  }

  @Test
  void freshOrderGoesToTheNextTick() {
    var accepted = assertInstanceOf(OrderIntake.Accepted.class, judge(GOOD));
    assertEquals("o-1", accepted.id());
    assertEquals(Instant.parse("2027-01-10T09:00:00Z"), accepted.expires());
  }

  @Test
  void staleOrderIsRefused() {
    refused(GOOD.replace("T09:00", "T08:00"), "o-1", "stale: it expired at 2027-01-10T08:00:00Z");
  }

  @Test
  void orderFromTheFutureIsRefused() {
    refused(GOOD.replace("T07:59", "T08:06"), "o-1", "in the future");
  }

  @Test
  void retainedOrderIsRefused() {
    var refused =
        assertInstanceOf(
            OrderIntake.Refused.class,
            intake.judge(GOOD.getBytes(StandardCharsets.UTF_8), true, NOW));
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
    refused("{\"id\":\"" + "x".repeat(70_000) + "\"}", null, "at most 4096");
    refused("[".repeat(4_000), null, "must be JSON");
    refused(GOOD.replace("o-1", "x".repeat(65)), null, "1 to 64 characters");
    refused(GOOD.replace("\"by\"", "\"cup\":\"A1\\n\",\"by\""), "o-1", "cannot be a name");
    refused(GOOD.replace("gardener", "me\\u0000"), "o-1", "control characters");
    refused(GOOD.replace("2027-01-10T09", "2027-01-12T09"), "o-1", "at most 2 days");
  }

  @Test
  @Tag("long")
  void noBytesBringItDown() throws Exception {
    byte[] good = GOOD.getBytes(StandardCharsets.UTF_8);
    Fuzz.of(
        "orders from the wire",
        "each was taken with its id or refused in a sentence.",
        random -> {
          Slips slips = new Slips(random);
          byte[] order = random.nextInt(3) == 0 ? slips.in(good) : slipped(slips);
          OrderIntake.Verdict verdict = intake.judge(order, random.nextInt(20) == 0, NOW);
          if (verdict instanceof OrderIntake.Refused refused) {
            assertFalse(refused.receipt().why().isBlank());
          } else {
            var accepted = assertInstanceOf(OrderIntake.Accepted.class, verdict);
            assertFalse(accepted.id().isEmpty());
            assertTrue(accepted.expires().isAfter(NOW));
          }
        });
  }

  private static byte[] slipped(Slips slips) {
    return slips.in(GOOD).getBytes(StandardCharsets.UTF_8);
  }

  @Test
  void noiseIsRefused() {
    SplittableRandom random = new SplittableRandom(1);
    for (int i = 0; i < 200; i++) {
      byte[] bytes = new byte[random.nextInt(200)];
      random.nextBytes(bytes);
      OrderIntake.Verdict verdict = intake.judge(bytes, false, NOW);
      assertNull(assertInstanceOf(OrderIntake.Refused.class, verdict).receipt().id());
    }
  }
}
