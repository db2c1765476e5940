package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Setups.Cutting;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.util.Optional;

/** How a bench is set up, and what became of the cuttings that stood on it. */
final class SetupRoutes {
  /** Orders of one cup that are looked through for the one that took it out. */
  private static final int MOST_CHANGES = 2_000;

  private final Store store;

  SetupRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/setup", this::setup);
    routes.get("/api/benches/{bench}/cuttings", this::cuttings);
  }

  private void setup(Context context) {
    Answer.json(context, Answer.stored(Asked.setup(context, store)));
  }

  private void cuttings(Context context) {
    String bench = Asked.bench(context, store);
    ArrayNode all = Json.MAPPER.createArrayNode();
    for (Cutting cutting : store.setups().cuttings(bench)) {
      ObjectNode told = all.addObject().put("cup", cutting.cup());
      told.setAll((ObjectNode) Answer.stored(cutting.told()));
      told.put("since", cutting.since().toString());
      if (cutting.gone() == null) {
        told.putNull("gone").putNull("because");
      } else {
        told.put("gone", cutting.gone().toString());
        told.put("because", because(bench, cutting).orElse(null));
      }
    }
    Answer.json(context, all);
  }

  /** What was given as the reason by the order that took it out, if an order did. */
  private Optional<String> because(String bench, Cutting cutting) {
    Instant until = cutting.gone().plusMillis(1);
    Search changes =
        new Search(bench, cutting.cup(), "change", cutting.since(), until, MOST_CHANGES);
    return store.events().find(changes).stream()
        .map(EventRow::data)
        .map(data -> Answer.stored(data).path("order"))
        .filter(order -> order.path("kind").asText().equals("retire"))
        .map(order -> order.path("because"))
        .filter(JsonNode::isTextual)
        .map(JsonNode::textValue)
        .findFirst();
  }
}
