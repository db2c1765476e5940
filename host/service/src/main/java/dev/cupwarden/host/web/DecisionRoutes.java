package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.host.store.Era;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Events.Search;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Why a cup was or was not watered at any moment, and how its rate, feed and salts went. */
final class DecisionRoutes {
  private static final String DECISION = "decision";
  private static final int MOST_READ = 50_000;

  /** Decisions of one cup that are looked through for a change: some six weeks of the same. */
  private static final int LONGEST_RUN = 400;

  private static final int MOST_POINTS = 800;
  private static final Duration USUAL_SPAN = Duration.ofDays(7);
  private static final List<String> CURVES =
      List.of("depletion", "rate_g_h", "vpd_kpa", "fed", "salt_ms_per_cm");

  private final Store store;

  DecisionRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/cups/{cup}/reasons", this::reasons);
    routes.get("/api/benches/{bench}/cups/{cup}/course", this::course);
  }

  /**
   * The decision that stood at a moment: since when and until when the same reasons held, and when
   * it was told last. A controller says it again every few hours; where it did not, it was silent.
   */
  private void reasons(Context context) {
    String bench = RequestParameters.bench(context, store);
    String cup = context.pathParam("cup");
    Instant at = RequestParameters.time(context, "at", Era.LATEST);
    List<EventRow> before = newest(bench, cup, Instant.EPOCH, at.plusMillis(1), LONGEST_RUN);
    if (before.isEmpty()) {
      throw new ApiException(
          HttpStatus.NOT_FOUND, "Nothing is known of cup " + cup + " at that time.");
    }
    EventRow told = before.get(0);
    JsonNode decision = JsonResponse.stored(told.data());
    Instant since =
        before.stream()
            .takeWhile(row -> saysTheSame(JsonResponse.stored(row.data()), decision))
            .reduce(told, (later, earlier) -> earlier)
            .at();
    Optional<EventRow> changed =
        store.events().after(bench, cup, DECISION, told.at(), LONGEST_RUN).stream()
            .filter(row -> !saysTheSame(JsonResponse.stored(row.data()), decision))
            .findFirst();
    ObjectNode answer = Json.MAPPER.createObjectNode();
    answer.put("since", since.toString()).put("told", told.at().toString());
    answer.put("until", changed.map(row -> row.at().toString()).orElse(null));
    answer.setAll((ObjectNode) decision);
    JsonResponse.json(context, answer);
  }

  private static boolean saysTheSame(JsonNode one, JsonNode other) {
    return one.path("state").equals(other.path("state"))
        && one.path("reasons")
            .findValuesAsText("code")
            .equals(other.path("reasons").findValuesAsText("code"));
  }

  private List<EventRow> newest(String bench, String cup, Instant from, Instant to, int limit) {
    return store.events().find(new Search(bench, cup, DECISION, from, to, limit));
  }

  private void course(Context context) {
    String bench = RequestParameters.bench(context, store);
    String cup = context.pathParam("cup");
    Instant to = RequestParameters.time(context, "to", Era.LATEST);
    Instant last =
        newest(bench, cup, Instant.EPOCH, to, 1).stream().map(EventRow::at).findFirst().orElse(to);
    Instant from = RequestParameters.time(context, "from", last.minus(USUAL_SPAN));
    List<EventRow> rows = newest(bench, cup, from, to, MOST_READ);
    ObjectNode answer = Json.MAPPER.createObjectNode();
    ArrayNode at = answer.putArray("at");
    CURVES.forEach(answer::putArray);
    int step = Math.max(1, (rows.size() + MOST_POINTS - 1) / MOST_POINTS);
    // Newest first in the store, so the newest is always among those that are shown.
    int oldest = rows.isEmpty() ? -1 : (rows.size() - 1) / step * step;
    for (int index = oldest; index >= 0; index -= step) {
      EventRow row = rows.get(index);
      JsonNode decision = JsonResponse.stored(row.data());
      at.add(Elapsed.epochSeconds(row.at()));
      CURVES.forEach(curve -> answer.withArray(curve).add(decision.get(curve)));
    }
    answer.put("salt_most_ms_per_cm", SaltBalance.MOST_MS_PER_CM);
    JsonResponse.json(context, answer);
  }
}
