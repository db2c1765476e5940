package dev.cupwarden.host.review;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.host.PostgresqlServer;
import dev.cupwarden.host.review.Export.Asked;
import dev.cupwarden.host.store.Database;
import dev.cupwarden.host.store.Events.EventRow;
import dev.cupwarden.host.store.Setups.CupRow;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A season as it is exported, from both databases. */
class SeasonTableTest {
  @TempDir Path folder;
  private long seq;

  @Test
  void retiredCutsKeepPlantMixVesselStageAndOutcomeOnSqlite() throws Exception {
    seasonOf(Database.sqlite(folder.resolve("host.db")));
  }

  @Test
  void retiredCutsKeepPlantMixVesselStageAndOutcomeOnPostgresql() throws Exception {
    try (PostgresqlServer server = PostgresqlServer.start()) {
      seasonOf(server.database());
    }
  }

  /** A2 rots, and a vine takes its place; A1 roots and is potted on; A3 stays. */
  private void seasonOf(Database database) throws IOException {
    try (Store store = Store.open(database)) {
      setUp(store, 0, Map.of("A1", "currant struck", "A2", "elder struck", "A3", "fig white"));
      dose(store, 1, "A1");
      dose(store, 1, "A2");
      retire(store, 2, "A2", "rotted");
      setUp(store, 2, Map.of("A1", "currant toughened", "A3", "fig white"));
      setUp(store, 3, Map.of("A1", "currant circling", "A2", "vine struck", "A3", "fig toughened"));
      dose(store, 4, "A2");
      retire(store, 5, "A1", "rooted");
      setUp(store, 5, Map.of("A2", "vine struck", "A3", "fig toughened"));
      assertEquals(
          List.of(
              "cup,plant,mix,vessel,struck,stage,since,gone,outcome,doses,plain_ml,feed_ml,"
                  + "first_dose,last_dose,alerts",
              row(
                  "A1,currant,peat,tall,2027-01-05,circling,%d,%d,rooted,1,20.0,0.0,%d,%d,0",
                  0, 5, 1),
              row("A2,elder,peat,tall,2027-01-05,struck,%d,%d,rotted,1,20.0,0.0,%d,%d,0", 0, 2, 1),
              row("A2,vine,peat,tall,2027-01-05,struck,%d,,unknown,1,20.0,0.0,%d,%d,0", 3, 4),
              row("A3,fig,peat,tall,2027-01-05,toughened,%d,,growing,0,0.0,0.0,,,0", 0)),
          export(store, EIGHT, day(30)));
      assertEquals(
          3, export(store, day(4), day(30)).size() - 1, "who was gone before is not in it");
    }
  }

  /** With each number replaced by that day; the last one twice, as first and last dose. */
  private static String row(String form, Integer... days) {
    String row = form;
    for (Integer each : days) {
      row = row.replaceFirst("%d", day(each).toString());
    }
    return row.replace("%d", day(days[days.length - 1]).toString());
  }

  private static Instant day(int number) {
    return EIGHT.plus(Duration.ofDays(number));
  }

  private static List<String> export(Store store, Instant from, Instant to) throws IOException {
    StringWriter out = new StringWriter();
    Export.SEASON.write(store, new Asked("sill", from, to), out);
    return out.toString().lines().toList();
  }

  /**
   * @param cups plant and stage of each
   */
  private static void setUp(Store store, int day, Map<String, String> cups) {
    Map<String, CupRow> rows = new TreeMap<>();
    cups.forEach(
        (cup, said) -> {
          String plant = said.split(" ")[0];
          String told =
              Json.MAPPER
                  .createObjectNode()
                  .put("vessel", "tall")
                  .put("mix", "peat")
                  .put("plant", plant)
                  .put("struck", "2027-01-05")
                  .put("stage", said.split(" ")[1])
                  .toString();
          rows.put(cup, new CupRow(plant, "2027-01-05", told));
        });
    store.write(
        handle -> {
          store.benches().touch(handle, "sill");
          store.setups().put(handle, "sill", day(day), "{}", rows);
        });
  }

  private void dose(Store store, int day, String cup) {
    event(
        store, day, "dose", cup, Json.MAPPER.valueToTree(new Dose(cup, 20, 0, 0, "due", "given")));
  }

  private void retire(Store store, int day, String cup, String because) {
    var data = Json.MAPPER.createObjectNode();
    data.putObject("order").put("kind", "retire").put("cup", cup).put("because", because);
    event(store, day, "change", cup, data);
  }

  private void event(Store store, int day, String kind, String cup, Object data) {
    store.write(
        handle ->
            store
                .events()
                .insert(
                    handle,
                    new EventRow("sill", "e", ++seq, day(day), kind, cup, data.toString())));
  }
}
