package dev.cupwarden.host.review;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Setups.CuttingRow;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * A season in one row for each cutting, also those that were taken out: what it is, what became of
 * it, what it got, how often it wanted a person.
 */
final class SeasonTable {
  private static final String[] HEADS = {
    "cup",
    "plant",
    "mix",
    "vessel",
    "struck",
    "stage",
    "since",
    "gone",
    "outcome",
    "doses",
    "plain_ml",
    "feed_ml",
    "first_dose",
    "last_dose",
    "alerts"
  };

  private final Store store;
  private final Asked asked;

  /** Of each cup the cuttings that stood in it, by their beginnings. */
  private final Map<String, NavigableMap<Instant, Row>> rows = new TreeMap<>();

  private SeasonTable(Store store, Asked asked) {
    this.store = store;
    this.asked = asked;
  }

  private static final class Row {
    String plant = "";
    String mix = "";
    String vessel = "";
    String struck = "";
    String stage = "";
    Instant since;
    Instant gone;
    String outcome = "";
    Instant firstDose;
    Instant lastDose;
    int doses;
    double plainMl;
    double feedMl;
    int alerts;
  }

  static void write(Store store, Asked asked, Writer out) throws IOException {
    SeasonTable season = new SeasonTable(store, asked);
    store.setups().cuttings(asked.bench()).forEach(season::addCutting);
    store.benches().cups(asked.bench()).forEach(season::addStanding);
    EventTables.oldestFirst(store, asked, "dose").forEach(season::addDose);
    EventTables.oldestFirst(store, asked, "alert").forEach(season::addAlert);
    season.print(out);
  }

  private void addCutting(CuttingRow cutting) {
    JsonNode told = tree(cutting.told());
    Row row = new Row();
    row.plant = told.path("plant").asText("");
    row.mix = told.path("mix").asText("");
    row.vessel = told.path("vessel").asText("");
    row.struck = told.path("struck").asText("");
    row.stage = told.path("stage").asText("");
    row.since = cutting.since();
    row.gone = cutting.gone();
    row.outcome = Fate.of(store, asked.bench(), cutting, row.stage);
    rows.computeIfAbsent(cutting.cup(), name -> new TreeMap<>()).put(cutting.since(), row);
  }

  /**
   * Of a bench that has not told how it is set up, what is known of a cup is what it says itself.
   */
  private void addStanding(String status) {
    JsonNode cup = tree(status);
    String name = cup.path("cup").asText();
    if (!rows.containsKey(name)) {
      Row row = at(name, Instant.EPOCH);
      row.plant = cup.path("plant").asText("");
      row.stage = cup.path("stage").asText("");
      row.outcome = Fate.standing(row.stage);
    }
  }

  /** The cutting that stood in a cup then; what is older than all of them belongs to the first. */
  private Row at(String cup, Instant time) {
    NavigableMap<Instant, Row> cuttings = rows.computeIfAbsent(cup, name -> new TreeMap<>());
    if (cuttings.isEmpty()) {
      cuttings.put(Instant.EPOCH, new Row());
    }
    Map.Entry<Instant, Row> then = cuttings.floorEntry(time);
    return (then == null ? cuttings.firstEntry() : then).getValue();
  }

  private void addDose(EventRow event) {
    if (event.cup() == null) {
      return;
    }
    JsonNode dose = EventTables.data(event);
    Row row = at(event.cup(), event.at());
    row.doses++;
    row.plainMl += dose.path("plain_ml").asDouble();
    row.feedMl += dose.path("feed_ml").asDouble();
    row.firstDose = row.firstDose == null ? event.at() : row.firstDose;
    row.lastDose = event.at();
  }

  private void addAlert(EventRow event) {
    JsonNode alert = EventTables.data(event);
    boolean begins =
        alert.path("state").asText().equals("raised") && !alert.path("again").asBoolean();
    if (event.cup() != null && begins) {
      at(event.cup(), event.at()).alerts++;
    }
  }

  private boolean isAskedFor(Row row) {
    boolean ended = row.gone != null && !row.gone.isAfter(asked.from());
    boolean later = row.since != null && !row.since.isBefore(asked.to());
    return row.doses > 0 || row.alerts > 0 || !(ended || later);
  }

  private void print(Writer out) throws IOException {
    CsvTable table = new CsvTable(out, HEADS);
    for (Map.Entry<String, NavigableMap<Instant, Row>> cup : rows.entrySet()) {
      for (Row row : cup.getValue().values()) {
        if (isAskedFor(row)) {
          table.row(
              cup.getKey(),
              row.plant,
              row.mix,
              row.vessel,
              row.struck,
              row.stage,
              row.since,
              row.gone,
              row.outcome,
              row.doses,
              row.plainMl,
              row.feedMl,
              row.firstDose,
              row.lastDose,
              row.alerts);
        }
      }
    }
    table.flush();
  }

  private static JsonNode tree(String json) {
    try {
      return Json.MAPPER.readTree(json);
    } catch (JsonProcessingException damaged) {
      throw new IllegalStateException("the store holds what is not JSON", damaged);
    }
  }
}
