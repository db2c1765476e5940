package dev.cupwarden.host.review;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.csv.CSVPrinter;

/** A season in one row per cup: what it is, what it got, how often it wanted a person. */
final class SeasonTable {
  private SeasonTable() {}

  private static final class Row {
    String plant = "";
    String stage = "";
    Instant firstDose;
    Instant lastDose;
    int doses;
    double plainMl;
    double feedMl;
    int alerts;
  }

  static void write(Store store, Asked asked, Writer out) throws IOException {
    Map<String, Row> rows = new TreeMap<>();
    for (String status : store.benches().cups(asked.bench())) {
      JsonNode cup = tree(status);
      Row row = of(rows, cup.path("cup").asText());
      row.plant = cup.path("plant").asText("");
      row.stage = cup.path("stage").asText("");
    }
    EventTables.oldestFirst(store, asked, "dose").forEach(event -> addDose(rows, event));
    for (EventRow event : EventTables.oldestFirst(store, asked, "alert")) {
      if (event.cup() != null && "raised".equals(tree(event.data()).path("state").asText())) {
        of(rows, event.cup()).alerts++;
      }
    }
    CSVPrinter table =
        EventTables.table(
            out,
            "cup",
            "plant",
            "stage",
            "doses",
            "plain_ml",
            "feed_ml",
            "first_dose",
            "last_dose",
            "alerts");
    for (Map.Entry<String, Row> each : rows.entrySet()) {
      Row row = each.getValue();
      table.printRecord(
          EventTables.plain(each.getKey()),
          EventTables.plain(row.plant),
          row.stage,
          row.doses,
          row.plainMl,
          row.feedMl,
          row.firstDose,
          row.lastDose,
          row.alerts);
    }
    table.flush();
  }

  private static Row of(Map<String, Row> rows, String cup) {
    return rows.computeIfAbsent(cup, name -> new Row());
  }

  private static void addDose(Map<String, Row> rows, EventRow event) {
    if (event.cup() == null) {
      return;
    }
    JsonNode dose = tree(event.data());
    Row row = of(rows, event.cup());
    row.doses++;
    row.plainMl += dose.path("plain_ml").asDouble();
    row.feedMl += dose.path("feed_ml").asDouble();
    row.firstDose = row.firstDose == null ? event.at() : row.firstDose;
    row.lastDose = event.at();
  }

  private static JsonNode tree(String json) {
    try {
      return Json.MAPPER.readTree(json);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not JSON", damaged);
    }
  }
}
