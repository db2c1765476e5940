package dev.cupwarden.host.review;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Readings and events as CSV (RFC 4180), one row each, units in the heads. */
final class EventTables {
  private EventTables() {}

  static void readings(Store store, Asked asked, Writer out) throws IOException {
    CsvTable table = new CsvTable(out, "at", "series", "unit", "value");
    Map<String, String> units = new HashMap<>();
    for (String name : store.readings().names(asked.bench())) {
      units.put(name, store.readings().unit(asked.bench(), name).orElse(""));
    }
    Moments.each(
        store,
        asked,
        (at, values) -> {
          for (Map.Entry<String, Double> each : values.entrySet()) {
            table.row(at, each.getKey(), units.get(each.getKey()), each.getValue());
          }
        });
    table.flush();
  }

  static void doses(Store store, Asked asked, Writer out) throws IOException {
    CsvTable table =
        new CsvTable(out, "at", "cup", "plain_ml", "feed_ml", "strength", "why", "outcome");
    for (EventRow row : oldestFirst(store, asked, "dose")) {
      JsonNode dose = data(row);
      table.row(
          row.at(),
          row.cup(),
          dose.path("plain_ml").asDouble(),
          dose.path("feed_ml").asDouble(),
          dose.path("strength").asDouble(),
          dose.path("why").asText(),
          dose.path("outcome").asText());
    }
    table.flush();
  }

  static void alerts(Store store, Asked asked, Writer out) throws IOException {
    CsvTable table =
        new CsvTable(
            out,
            "at",
            "code",
            "cup",
            "state",
            "since",
            "value",
            "threshold",
            "do",
            "tank",
            "again");
    for (EventRow row : oldestFirst(store, asked, "alert")) {
      JsonNode alert = data(row);
      table.row(
          row.at(),
          alert.path("code").asText(),
          row.cup(),
          alert.path("state").asText(),
          alert.path("since").asText(),
          alert.path("value").asDouble(),
          alert.path("threshold").asDouble(),
          alert.path("do").asText(),
          alert.path("tank").asText(),
          alert.path("again").asBoolean() ? "true" : "");
    }
    table.flush();
  }

  static List<EventRow> oldestFirst(Store store, Asked asked, String kind) {
    List<EventRow> rows = new ArrayList<>();
    store.events().each(asked.bench(), kind, asked.from(), asked.to(), rows::add);
    return rows;
  }

  static JsonNode data(EventRow row) {
    try {
      return Json.MAPPER.readTree(row.data());
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not JSON", damaged);
    }
  }
}
