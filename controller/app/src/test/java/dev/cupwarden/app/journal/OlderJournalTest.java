package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.state.Doses;
import dev.cupwarden.core.tick.Tick;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A journal of schema 3, as the program of then wrote it: a bench with holds, latches, a swap, a
 * dose under way and a cup that waits for its drained weight. Nothing of it may be lost.
 */
class OlderJournalTest {
  private static final List<String> BENCH_ROOMS = List.of("pump", "compared", "orders");
  private static final List<String> CUP_ROOMS =
      List.of("presence", "plant", "weight", "watering", "doses", "witness");

  @TempDir Path folder;
  private Path file;

  @BeforeEach
  void theOlderFile() throws Exception {
    file = folder.resolve("journal.db");
    try (var connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        var statement = connection.createStatement()) {
      statement.executeUpdate(resource("/journals/schema-3.sql"));
    }
  }

  /** As that program wrote the last state out as JSON. */
  static JsonNode lastState() throws Exception {
    return Json.MAPPER.readTree(resource("/journals/schema-3-state.json"));
  }

  private static String resource(String name) throws Exception {
    try (var in = OlderJournalTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  private BenchState restored() throws Exception {
    try (Journal journal = Journal.open(file)) {
      return journal.restored().orElseThrow().state();
    }
  }

  @Test
  void everyFactIsWhatItWas() throws Exception {
    JsonNode then = lastState();
    JsonNode now = flat(restored());
    for (JsonNode state : List.of(then, now)) {
      ((ObjectNode) state.path("air"))
          .remove(List.of("warmest_air_c", "mould", "light_day", "outdoor_c", "foretold"));
      // No bench was only watched then.
      assertFalse(state.path("watch_only").asBoolean());
      ((ObjectNode) state).remove("watch_only");
      // Nor could orders change the bench file.
      assertTrue(state.path("changes").isEmpty());
      ((ObjectNode) state).remove("changes");
      // A pump was reckoned with as cups showed it, and nobody told.
      ((ObjectNode) state).remove("pump_off_since");
      for (JsonNode cup : state.path("cups")) {
        // What the leaves drew is kept no more; how long a scale stood still, how restless it was,
        // how a day's hours differ, what ran past a mix, how dry it was, how warm its roots and how
        // far the air fell are known by more than then. Little air is no longer standing still, and
        // there were no covers.
        ((ObjectNode) cup).remove("draw");
        ((ObjectNode) cup).remove("low_air");
        ((ObjectNode) cup.path("estimate")).remove(List.of("standstill", "noise", "day"));
        ((ObjectNode) cup.path("soaking")).remove("shed_passes");
        ((ObjectNode) cup).remove(List.of("driest", "rooting", "cover", "season"));
        ((ObjectNode) cup.path("setup")).remove("covered");
        ((ObjectNode) cup.path("wet")).retain("wet_since");
      }
    }
    assertEquals(then, now);
  }

  /** The state written as the older program would have. */
  private static JsonNode flat(BenchState state) throws Exception {
    ObjectNode bench = (ObjectNode) Json.MAPPER.readTree(Json.written(state));
    flatten(bench, BENCH_ROOMS);
    bench.set("pump_latch", bench.remove("latch"));
    bench.set("order_ids", bench.remove("ids"));
    for (JsonNode cup : bench.path("cups")) {
      ObjectNode facts = (ObjectNode) cup;
      flatten(facts, CUP_ROOMS);
      facts.put("short_passes", facts.path("short_run").path("passes").asInt(0));
    }
    return bench;
  }

  private static void flatten(ObjectNode record, List<String> rooms) {
    for (String room : rooms) {
      record.setAll((ObjectNode) record.remove(room));
    }
  }

  @Test
  void whatKeepsWaterOffAndWhatWasGivenAreStillThere() throws Exception {
    BenchState state = restored();
    assertEquals(Instant.parse("2027-01-11T16:45:00.250Z"), state.orders().hold().until());
    assertTrue(state.orders().hold().feedOnly());
    CupState dosed = state.cups().get("A1");
    assertEquals("o-dose", dosed.watering().refill().orderId());
    assertEquals(60.0, dosed.watering().refill().leftMl());
    assertEquals(7, dosed.doses().given().size());
    assertEquals(Instant.parse("2027-01-10T13:50:00.250Z"), dosed.doses().lastPassAt());
    assertEquals(Instant.parse("2027-01-11T06:40:00.250Z"), state.cups().get("A2").hold().until());
    CupState latched = state.cups().get("A3");
    assertEquals(AlertCode.DOSE_SHORT, latched.latch().code());
    assertEquals(2, latched.witness().shortPasses());
    assertTrue(state.cups().get("B1").presence().away());
    assertEquals("C1", state.cups().get("B2").weight().misplaced().partner());
    assertEquals("o-drained", state.cups().get("C1").weight().weighing().asked().orderId());
  }

  private static List<String> water(Doses doses) {
    return doses.given().stream().map(given -> given.at() + " " + given.ml()).toList();
  }

  /** Water goes as it went then; how strong it is goes by the rules of now. */
  @Test
  void itsTicksAreDecidedAnewAsTheyWereThen() throws Exception {
    BenchState last = restored();
    try (JournalExport export = JournalExport.open(file)) {
      JournalExport.StartEntry start = export.starts().get(0);
      Bench bench = BenchFile.read("then", export.benchAt(start).getBytes(StandardCharsets.UTF_8));
      Tick tick = new Tick(bench);
      BenchState state = export.stateAt(start);
      List<JournalExport.Seen> seen = export.seen(start, start.firstTick());
      assertEquals(6, seen.size());
      for (JournalExport.Seen each : seen) {
        state =
            tick.step(
                    state,
                    ObservationReader.read(
                        each.line(), state.cups().keySet(), bench.tanks().keySet()))
                .state();
      }
      for (String cup : last.cups().keySet()) {
        assertEquals(
            water(last.cups().get(cup).doses()), water(state.cups().get(cup).doses()), cup);
        assertEquals(last.cups().get(cup).latch(), state.cups().get(cup).latch(), cup);
        assertEquals(
            last.cups().get(cup).watering().refill(), state.cups().get(cup).watering().refill());
      }
      assertEquals(last.pump(), state.pump());
      assertEquals(last.orders(), state.orders());
    }
  }

  @Test
  void itGoesOnInTheFileAsItIsNow() throws Exception {
    BenchState state = restored();
    try (Journal journal = Journal.open(file)) {
      journal.commit(
          new TickEntry(
              state.at(), "{}", state, Optional.empty(), List.of(), List.of(), List.of()));
    }
    try (Journal journal = Journal.open(file)) {
      Journal.Restored restored = journal.restored().orElseThrow();
      assertEquals(state, restored.state());
      assertEquals(7, restored.tick());
    }
  }
}
