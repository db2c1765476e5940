package dev.cupwarden.host.app;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.Host;
import dev.cupwarden.host.orders.OrderException;
import java.util.Iterator;
import java.util.Map;
import java.util.TreeMap;

/** Tells the demo's bench that both of its tanks were just filled, as a grower would. */
final class DemoTanks {
  private static final String BENCH = "back-room";
  private static final String BY = "demo";

  /** In mL, those that are still to be told of. */
  private final Map<String, Double> full =
      new TreeMap<>(Map.of("plain", 12_000.0, "feed", 4_000.0));

  /** Once the host knows the bench; until then it is tried again. */
  void tellOnce(Host host) {
    for (Iterator<Map.Entry<String, Double>> tanks = full.entrySet().iterator();
        tanks.hasNext(); ) {
      Map.Entry<String, Double> tank = tanks.next();
      ObjectNode filled = Json.MAPPER.createObjectNode().put("kind", "filled");
      filled.put("tank", tank.getKey()).put("ml", tank.getValue());
      try {
        host.order(BENCH, filled, BY);
        tanks.remove();
      } catch (OrderException notYet) {
        return;
      }
    }
  }
}
