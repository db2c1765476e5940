package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.review.Fate;
import dev.cupwarden.host.review.RootsForetold;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;

/** How a bench is set up, and what became of the cuttings that stood on it. */
final class SetupRoutes {
  private final Store store;

  SetupRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/setup", this::setup);
    routes.get("/api/benches/{bench}/cuttings", this::cuttings);
  }

  private void setup(Context context) {
    String told = store.setups().find(RequestParameters.bench(context, store)).orElse("null");
    JsonResponse.json(context, JsonResponse.stored(told));
  }

  private void cuttings(Context context) {
    String bench = RequestParameters.bench(context, store);
    ArrayNode all = Json.MAPPER.createArrayNode();
    for (CuttingRow cutting : store.setups().cuttings(bench)) {
      ObjectNode told = all.addObject().put("cup", cutting.cup());
      told.setAll((ObjectNode) JsonResponse.stored(cutting.told()));
      told.put("since", cutting.since().toString());
      String stage = told.path("stage").asText();
      told.set("foretold", RootsForetold.of(store, bench, cutting, stage));
      if (cutting.gone() == null) {
        told.putNull("gone").putNull("because");
      } else {
        told.put("gone", cutting.gone().toString());
        told.put("because", Fate.because(store, bench, cutting).orElse(null));
      }
    }
    JsonResponse.json(context, all);
  }
}
