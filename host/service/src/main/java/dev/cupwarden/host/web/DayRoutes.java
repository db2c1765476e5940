package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.host.store.Curve;
import dev.cupwarden.host.store.Era;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/** The days of a whole bench: what it was given, and what its climate was. */
final class DayRoutes {
  private static final int MOST_POINTS = 600;
  private static final Duration USUAL_SPAN = Duration.ofDays(7);

  /** Series as benches name them, by the names of the answer. */
  private static final SortedMap<String, String> SERIES =
      new TreeMap<>(
          Map.of(
              "air_c", "air/temperature",
              "root_c", "root/temperature",
              "outdoor_c", "outdoor/temperature",
              "rh_pct", "air/humidity",
              "light_umol_m2_s", "light"));

  private final Store store;

  DayRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches/{bench}/given", this::given);
    routes.get("/api/benches/{bench}/climate", this::climate);
  }

  private void given(Context context) {
    String bench = RequestParameters.bench(context, store);
    Instant from = RequestParameters.time(context, "from", Era.EARLIEST);
    Instant to = RequestParameters.time(context, "to", Era.LATEST);
    RequestParameters.requireOrder(from, to);
    JsonResponse.json(context, store.events().given(bench, from, to));
  }

  private void climate(Context context) {
    String bench = RequestParameters.bench(context, store);
    Instant to = RequestParameters.time(context, "to", Era.LATEST);
    Instant newest =
        SERIES.values().stream()
            .flatMap(series -> store.readings().newest(bench, series).stream())
            .max(Instant::compareTo)
            .orElse(to);
    // Not beyond the newest: the span decides how fine the curves are.
    Instant end = newest.isBefore(to) ? newest.plusMillis(1) : to;
    Instant from = RequestParameters.time(context, "from", end.minus(USUAL_SPAN));
    RequestParameters.requireOrder(from, to);
    ObjectNode answer = Json.MAPPER.createObjectNode();
    SERIES.forEach(
        (name, series) -> {
          Curve curve =
              from.isBefore(end)
                  ? store.readings().overview(bench, series, from, end).thinned(MOST_POINTS)
                  : new Curve.Builder().build();
          ObjectNode told = answer.putObject(name);
          ArrayNode at = told.putArray("at");
          ArrayNode values = told.putArray("value");
          for (int index = 0; index < curve.size(); index++) {
            at.add(Elapsed.epochSeconds(curve.atMs(index)));
            values.add(curve.value(index));
          }
        });
    JsonResponse.json(context, answer);
  }
}
