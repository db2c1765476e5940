package dev.cupwarden.host.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.host.store.Alerts;
import dev.cupwarden.host.store.Alerts.AlertRow;
import dev.cupwarden.host.store.Alerts.Seen;
import dev.cupwarden.host.store.Store;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Optional;

/** A person says of an alert: I have seen it. */
final class AlertRoutes {
  private static final int LONGEST = 64;

  private final Store store;
  private final InstantSource clock;

  AlertRoutes(Store store, InstantSource clock) {
    this.store = store;
    this.clock = clock;
  }

  void add(RoutesConfig routes) {
    routes.post("/api/benches/{bench}/acknowledgements", this::acknowledge);
  }

  private void acknowledge(Context context) {
    JsonNode asked = bodyOf(context);
    String bench = context.pathParam("bench");
    Alerts.Key key =
        new Alerts.Key(
            bench, text(asked, "code"), optionalText(asked, "cup"), optionalText(asked, "tank"));
    Seen seen = new Seen(now(), Caller.nameOf(context));
    boolean[] open = new boolean[1];
    store.write(handle -> open[0] = store.alerts().acknowledge(handle, key, seen));
    if (!open[0]) {
      throw new ApiException(
          HttpStatus.NOT_FOUND,
          "Bench "
              + bench
              + " has no open alert "
              + key.code()
              + key.cup()
                  .map(cup -> " for cup " + cup)
                  .or(() -> key.tank().map(tank -> " for tank " + tank))
                  .orElse("")
              + ".");
    }
    JsonResponse.json(context, treeOf(store.alerts().find(key).orElseThrow()));
  }

  private Instant now() {
    return Instant.ofEpochMilli(clock.millis());
  }

  /** The notice as its bench wrote it, with {@code acknowledged} where a person has seen it. */
  static ObjectNode treeOf(AlertRow row) {
    ObjectNode alert = (ObjectNode) JsonResponse.stored(row.notice());
    row.seen()
        .ifPresent(
            seen ->
                alert
                    .putObject("acknowledged")
                    .put("at", seen.at().toString())
                    .put("by", seen.by()));
    return alert;
  }

  private static JsonNode bodyOf(Context context) {
    String expected = "Expected a JSON object with code and, for one cup, cup";
    JsonNode asked = RequestParameters.json(context.body(), expected);
    if (!asked.isObject()) {
      throw new ApiException(HttpStatus.BAD_REQUEST, expected + ".");
    }
    return asked;
  }

  private static String text(JsonNode asked, String field) {
    return optionalText(asked, field)
        .orElseThrow(
            () ->
                new ApiException(
                    HttpStatus.BAD_REQUEST, field + ": expected the name of an alert."));
  }

  private static Optional<String> optionalText(JsonNode asked, String field) {
    JsonNode value = asked.path(field);
    if (value.isMissingNode() || value.isNull()) {
      return Optional.empty();
    }
    String text = value.asText();
    if (!value.isTextual() || text.isEmpty() || text.length() > LONGEST) {
      throw new ApiException(
          HttpStatus.BAD_REQUEST, field + ": expected a text of 1 to " + LONGEST + " characters.");
    }
    return Optional.of(text);
  }
}
