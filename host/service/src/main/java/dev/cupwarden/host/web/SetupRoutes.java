package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.BenchChange;
import dev.cupwarden.core.setup.BenchEdit;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.host.review.Fate;
import dev.cupwarden.host.review.RootsForetold;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** How a bench is set up, and what became of the cuttings that stood on it. */
final class SetupRoutes {
  private static final String FILE = "bench file";
  private static final Pattern PLACED =
      Pattern.compile(FILE + ":(\\d+):(\\d+):? (.*)", Pattern.DOTALL);

  private final Store store;

  SetupRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/setup", this::setup);
    routes.get("/api/benches/{bench}/cuttings", this::cuttings);
    routes.post("/api/benches/{bench}/file", this::tryFile);
  }

  private void setup(Context context) {
    String told = store.setups().find(RequestParameters.bench(context, store)).orElse("null");
    JsonResponse.json(context, JsonResponse.stored(told));
  }

  /** Changes nothing: answers what an edited text asks for, or where it is wrong. */
  private void tryFile(Context context) {
    JsonNode now = JsonResponse.stored(RequestParameters.setup(context, store)).path("file");
    JsonNode edited = edited(context);
    if (!now.isTextual()) {
      throw new ApiException(HttpStatus.CONFLICT, "This bench does not tell its file.");
    }
    ObjectNode told = Json.MAPPER.createObjectNode();
    try {
      BenchEdit edit =
          BenchEdit.of(
              new BenchText(FILE, now.textValue()), new BenchText(FILE, edited.textValue()));
      ArrayNode changes = told.putArray("changes");
      for (BenchChange change : edit.changes()) {
        ObjectNode one = changes.addObject().put("path", change.path());
        one.set("from", JsonResponse.stored(change.from()));
        one.set("to", JsonResponse.stored(change.to()));
      }
      ArrayNode refused = told.putArray("refused");
      edit.refused().forEach(refused::add);
      told.put("other_text", edit.otherText());
    } catch (SetupException wrong) {
      Matcher placed = PLACED.matcher(wrong.getMessage());
      boolean known = placed.matches();
      told.putObject("error")
          .put("line", known ? Integer.valueOf(placed.group(1)) : null)
          .put("column", known ? Integer.valueOf(placed.group(2)) : null)
          .put("sentence", known ? placed.group(3) : wrong.getMessage());
    }
    JsonResponse.json(context, told);
  }

  private static JsonNode edited(Context context) {
    JsonNode text = RequestParameters.json(context.body(), "A text is asked for").path("text");
    if (!text.isTextual()) {
      throw new ApiException(HttpStatus.BAD_REQUEST, "text: expected the text of a bench file.");
    }
    return text;
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
