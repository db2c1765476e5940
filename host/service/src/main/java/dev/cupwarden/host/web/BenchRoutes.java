package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.units.Elapsed;
import dev.cupwarden.host.store.Benches.BenchRow;
import dev.cupwarden.host.store.Curve;
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

/** What is stored of benches and cups, for reading. */
final class BenchRoutes {
  private static final int MOST_POINTS = 2_000;
  private static final int EVENTS = 200;
  private static final int MOST_EVENTS = 2_000;
  private static final Duration USUAL_SPAN = Duration.ofDays(7);

  private final Store store;

  BenchRoutes(Store store) {
    this.store = store;
  }

  void add(RoutesConfig routes) {
    routes.get("/api/benches", this::benches);
    routes.get("/api/benches/{bench}/cups", this::cups);
    routes.get("/api/benches/{bench}/cups/{cup}/weights", this::weights);
    routes.get("/api/benches/{bench}/events", this::events);
    routes.get("/api/benches/{bench}/alerts", this::alerts);
  }

  private void benches(Context context) {
    ArrayNode benches = Json.MAPPER.createArrayNode();
    for (BenchRow row : store.benches().all()) {
      ObjectNode bench = benches.addObject().put("bench", row.bench());
      bench.set(
          "presence",
          row.presence() == null
              ? null
              : Json.MAPPER.valueToTree(new Presence(row.presence(), row.since())));
      bench.set("status", row.status() == null ? null : JsonResponse.stored(row.status()));
    }
    JsonResponse.json(context, benches);
  }

  private void cups(Context context) {
    String bench = RequestParameters.bench(context, store);
    ArrayNode cups = Json.MAPPER.createArrayNode();
    store.benches().cups(bench).forEach(status -> cups.add(JsonResponse.stored(status)));
    JsonResponse.json(context, cups);
  }

  private void weights(Context context) {
    String bench = RequestParameters.bench(context, store);
    String cup = context.pathParam("cup");
    String series = cup + "/mass";
    Instant newest = store.readings().newest(bench, series).orElse(null);
    if (newest == null && !store.benches().hasCup(bench, cup)) {
      throw new ApiException(
          HttpStatus.NOT_FOUND, "There is no cup " + cup + " on bench " + bench + ".");
    }
    Instant to = RequestParameters.time(context, "to", Era.LATEST);
    Instant last = newest == null || newest.isAfter(to) ? to : newest;
    Instant from = RequestParameters.time(context, "from", last.minus(USUAL_SPAN));
    RequestParameters.requireOrder(from, to);
    // Not beyond the newest: the span decides how fine the curve is.
    Instant end = newest == null || to.isBefore(newest) ? to : newest.plusMillis(1);
    if (!from.isBefore(end)) {
      end = to;
    }
    Curve curve = store.readings().overview(bench, series, from, end).thinned(MOST_POINTS);
    double[] atS = new double[curve.size()];
    double[] massG = new double[curve.size()];
    for (int index = 0; index < curve.size(); index++) {
      atS[index] = Elapsed.epochSeconds(curve.atMs(index));
      massG[index] = curve.value(index);
    }
    JsonResponse.json(context, new Weights(atS, massG));
  }

  /**
   * A curve for a chart.
   *
   * @param at seconds since 1970-01-01T00:00Z
   */
  private record Weights(double[] at, double[] massG) {}

  private void events(Context context) {
    String bench = RequestParameters.bench(context, store);
    Instant from = RequestParameters.time(context, "from", Era.EARLIEST);
    Instant to = RequestParameters.time(context, "to", Era.LATEST);
    RequestParameters.requireOrder(from, to);
    List<EventRow> rows =
        store
            .events()
            .find(
                new Search(
                    bench,
                    RequestParameters.name(context, "cup"),
                    RequestParameters.name(context, "kind"),
                    from,
                    to,
                    RequestParameters.limit(context, EVENTS, MOST_EVENTS)));
    JsonResponse.json(context, rows.stream().map(BenchRoutes::eventOf).toList());
  }

  private static Event eventOf(EventRow row) {
    return new Event(
        row.epoch(), row.seq(), row.at(), row.kind(), row.cup(), JsonResponse.stored(row.data()));
  }

  private void alerts(Context context) {
    String bench = RequestParameters.bench(context, store);
    ArrayNode alerts = Json.MAPPER.createArrayNode();
    store.alerts().open(bench).forEach(row -> alerts.add(AlertRoutes.treeOf(row)));
    JsonResponse.json(context, alerts);
  }
}
