package dev.cupwarden.host.orders;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Store;
import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the host does not send, since a bench's journal would hold it for ever. */
class OrderNamesTest {
  @TempDir Path folder;
  private final List<String> sent = new ArrayList<>();
  private Store store;
  private OrderService orders;

  @BeforeEach
  void open() {
    store = Store.open(Database.sqlite(folder.resolve("host.db")));
    store.write(handle -> store.benches().touch(handle, "sill"));
    orders =
        new OrderService(
            store,
            InstantSource.fixed(EIGHT),
            Duration.ofMinutes(10),
            (topic, payload, expiryS) -> {
              sent.add(topic);
              return CompletableFuture.completedFuture(null);
            });
  }

  @AfterEach
  void close() {
    store.close();
  }

  private static ObjectNode hold() {
    return Json.MAPPER.createObjectNode().put("kind", "hold").put("until", "2027-02-14T08:00:00Z");
  }

  private void assertRefused(ObjectNode order, String why) {
    OrderException refused =
        assertThrows(
            OrderException.class, () -> orders.place("sill", order, "me"), order::toString);
    assertEquals(OrderException.Problem.NOT_AN_ORDER, refused.because());
    assertTrue(refused.getMessage().contains(why), refused.getMessage());
    assertEquals(List.of(), sent);
    assertEquals(List.of(), store.orders().recent("sill", 10));
  }

  @Test
  void aNameThatNoCupCanHaveIsRefusedBeforeItIsSent() throws Exception {
    for (String name : new String[] {"A1\n", "A1/mass", "a".repeat(33), "", " ", "=1+1", "é"}) {
      assertRefused(hold().put("cup", name), "cannot be a name: expected 1 to 32");
      assertRefused(hold().put("tank", name), "tank: ");
      ObjectNode many = hold();
      many.putArray("cups").add("A1").add(name);
      assertRefused(many, "cups: ");
    }
    assertRefused(hold().put("cup", 7), "cup: expected");
    assertRefused(
        hold().put("untli", "2027-02-14"), "untli: unknown field of an order of kind hold");
    assertRefused(hold().put("until", "soon"), "until: expected");
    assertRefused(hold().set("cups", Json.MAPPER.createObjectNode()), "cups: expected");
    assertRefused(hold().put("id", "o".repeat(65)), "id: expected a text of 1 to 64");
    assertRefused(hold().put("id", "o\n"), "id: expected a text of 1 to 64");
    orders.place("sill", hold().put("cup", "A1").put("id", "o".repeat(64)), "me");
    orders.place("sill", hold(), "me");
    assertEquals(2, sent.size());
  }

  @Test
  void anOrderIsFourThousandBytesAtMost() {
    assertRefused(hold().put("because", "x".repeat(5_000)), "at most 4096 bytes");
  }
}
