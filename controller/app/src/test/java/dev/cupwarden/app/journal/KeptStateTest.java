package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.tick.Tick;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is read back is what was kept, whatever happens on a bench. */
class KeptStateTest {
  private static final Instant START = Instant.parse("2027-01-10T06:00:00.250Z");

  @TempDir Path folder;
  private Bench bench;
  private Tick tick;

  @BeforeEach
  void example() throws Exception {
    bench = BackRoom.bench();
    tick = new Tick(bench);
  }

  private Path file() {
    return folder.resolve("journal.db");
  }

  private static TickEntry entry(BenchState state, List<Advice.Pass> passes) {
    return new TickEntry(state.at(), "{}", state, Optional.empty(), passes, List.of(), List.of());
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void everyStateOfThreeRestlessDaysIsReadBackAsItWasKept(long seed) throws Exception {
    RestlessCups cups = new RestlessCups(bench, new Random(seed));
    BenchState state = tick.fresh();
    Journal journal = Journal.open(file());
    try {
      for (int i = 0; i < 3 * 288; i++) {
        Instant at = START.plus(bench.tick().multipliedBy(i));
        Tick.Step step =
            tick.step(
                state,
                ObservationReader.read(
                    cups.line(at, state.cups().keySet()),
                    state.cups().keySet(),
                    bench.tanks().keySet()));
        step.brief().passes().forEach(cups::water);
        state = step.state();
        journal.commit(entry(state, step.brief().passes()));
        Journal.Restored restored = journal.restored().orElseThrow();
        assertEquals(state, restored.state(), "tick " + i);
        assertEquals(state.at(), restored.at());
        if (i % 100 == 99) {
          journal.close();
          journal = Journal.open(file());
        }
      }
    } finally {
      journal.close();
    }
    assertTrue(cups.waterings > 20, "the cups were watered");
    assertTrue(state.cups().size() < bench.cups().size(), "a cup was retired");
  }

  /** Dry and are watered, are lifted, fall silent, and get orders. */
  private static final class RestlessCups {
    private final Random random;
    private final SortedMap<String, Double> massG = new TreeMap<>();
    private int orders;
    private int waterings;

    RestlessCups(Bench bench, Random random) {
      this.random = random;
      bench.cups().keySet().forEach(cup -> massG.put(cup, 240 + 40 * random.nextDouble()));
    }

    void water(Advice.Pass pass) {
      waterings++;
      massG.merge(pass.cup(), pass.plainMl() + pass.feedMl(), Double::sum);
    }

    String line(Instant at, Set<String> present) {
      ObjectNode line = Json.MAPPER.createObjectNode().put("at", at.toString());
      if (random.nextInt(20) > 0) {
        line.put("air_c", 18 + 4 * random.nextDouble()).put("rh_pct", 50 + random.nextInt(30));
        line.put("root_c", 17 + 5 * random.nextDouble());
      }
      ObjectNode shown = line.putObject("mass_g");
      massG.keySet().retainAll(present);
      massG.replaceAll((cup, grams) -> grams - 0.4 * random.nextDouble());
      massG.forEach(
          (cup, grams) -> {
            if (random.nextInt(40) > 0) {
              shown.put(cup, Math.rint(grams * 100) / 100 * (random.nextInt(200) == 0 ? 0.1 : 1));
            }
          });
      if (random.nextInt(60) == 0) {
        line.putArray("orders").add(order(at));
      }
      return line.toString();
    }

    private ObjectNode order(Instant at) {
      List<String> names = List.copyOf(massG.keySet());
      String cup = names.get(random.nextInt(names.size()));
      ObjectNode order = Json.MAPPER.createObjectNode().put("id", "o-" + orders++);
      return switch (orders == 3 ? 9 : random.nextInt(7)) {
        case 0 ->
            order
                .put("kind", "hold")
                .put("cup", cup)
                .put("until", at.plus(Duration.ofHours(2)).toString())
                .put("feed_only", random.nextBoolean())
                .put("rescue", true);
        case 1 -> order.put("kind", "release");
        case 2 -> order.put("kind", "away").put("cup", cup);
        case 3 -> order.put("kind", "back").put("cup", cup);
        case 4 -> order.put("kind", "drained").put("cup", cup);
        case 5 -> order.put("kind", "watered").put("cup", cup).put("ml", 20).put("strength", 0);
        case 6 -> order.put("kind", "stage").put("cup", cup).put("stage", "toughened");
        default -> order.put("kind", "retire").put("cup", "A1").put("because", "rooted");
      };
    }
  }

  @Test
  void aTickThatCouldNotBeWrittenLeavesTheStateBeforeIt() throws Exception {
    try (Journal journal = Journal.open(file())) {
      BenchState before = state(tick.fresh(), START);
      journal.commit(entry(before, List.of()));
      BenchState lost = state(before, START.plusSeconds(300));
      FullDisk.at(journal, true);
      assertThrows(
          JournalException.class,
          () -> {
            for (int i = 0; i < 1000; i++) {
              journal.commit(entry(lost, List.of(new Advice.Pass("A1", 1, 0, 0, "x".repeat(999)))));
            }
          });
      FullDisk.at(journal, false);
      BenchState after = state(lost, START.plusSeconds(600));
      journal.commit(entry(after, List.of()));
      assertEquals(after, journal.restored().orElseThrow().state());
    }
  }

  private BenchState state(BenchState before, Instant at) throws Exception {
    String line = "{\"at\":\"" + at + "\",\"mass_g\":{\"A1\":250.5,\"B2\":244.25}}";
    return tick.step(
            before, ObservationReader.read(line, bench.cups().keySet(), bench.tanks().keySet()))
        .state();
  }

  @Test
  void aRecordThatIsMissingOrTornIsSaidToBeNotUnderstood() throws Exception {
    for (String damage :
        List.of(
            "DELETE FROM cup WHERE name = 'A1'",
            "UPDATE cup SET name = 'Z9' WHERE name = 'A1'",
            "UPDATE cup SET body = substr(body, 1, 40) WHERE name = 'A1'",
            "UPDATE cup SET body = x'00' WHERE name = 'A1'",
            "UPDATE state SET body = substr(body, 1, length(body) - 9)",
            "UPDATE state SET body = x''")) {
      try (Journal journal = Journal.open(file())) {
        journal.commit(entry(state(tick.fresh(), START), List.of()));
        try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
            Statement statement = connection.createStatement()) {
          statement.execute(damage);
        }
        JournalException found = assertThrows(JournalException.class, journal::restored, damage);
        assertEquals(JournalException.Trouble.CORRUPT, found.trouble());
        assertTrue(found.getMessage().contains("cannot be understood"), found.getMessage());
      }
    }
  }

  @Test
  void journalOfTheFirstSchemaIsCarriedOver() throws Exception {
    JsonNode text = OlderJournalTest.lastState();
    BenchState last = Cbor.read(Cbor.MAPPER.writeValueAsBytes(text));
    String schema;
    try (var in = Journal.class.getResourceAsStream("schema-1.sql")) {
      schema = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement()) {
      statement.executeUpdate(schema);
      statement.executeUpdate("INSERT INTO numbering VALUES (1, 'epoch', 7, 6)");
      statement.executeUpdate("PRAGMA application_id = " + 0x43574A31);
      statement.executeUpdate("PRAGMA user_version = 1");
      try (var put =
          connection.prepareStatement("INSERT INTO start VALUES (?, ?, ?, 'epoch', '0.1', ?, ?)")) {
        put.setLong(1, 1);
        put.setString(2, START.toString());
        put.setString(3, "start");
        put.setString(4, BackRoom.text());
        put.setString(5, text.toString());
        put.executeUpdate();
      }
      try (var put = connection.prepareStatement("INSERT INTO state VALUES (1, 2, ?, ?)")) {
        put.setString(1, last.at().toString());
        put.setString(2, text.toString());
        put.executeUpdate();
      }
      statement.executeUpdate("INSERT INTO observation VALUES (2, 'then', '{\"at\":\"then\"}')");
      statement.executeUpdate(
          "INSERT INTO pass (tick, at, cup, plain_ml, feed_ml, strength, why)"
              + " VALUES (2, 'then', 'A1', 10, 0, 0, 'due')");
      statement.executeUpdate(
          "INSERT INTO event VALUES (7, '" + START + "', 'change', NULL, '{}')");
    }
    try (Journal journal = Journal.open(file());
        Outbox outbox = Outbox.of(journal)) {
      Journal.Restored restored = journal.restored().orElseThrow();
      assertEquals(last, restored.state());
      assertEquals(2, restored.tick());
      assertEquals(last.at(), restored.at());
      assertEquals(BackRoom.text(), journal.lastBench().orElseThrow());
      assertEquals(7, outbox.eventsAfter("", 0, 9).get(0).seq());
      BenchState next = state(last, last.at().plusSeconds(300));
      journal.commit(entry(next, List.of()));
      assertEquals(next, journal.restored().orElseThrow().state());
    }
    try (JournalExport export = JournalExport.open(file())) {
      assertEquals(1, export.starts().size());
      assertEquals(last, export.stateAt(export.starts().get(0)));
      assertEquals(1, export.passes().size());
      StringBuilder lines = new StringBuilder();
      export.lines(0, lines);
      assertTrue(lines.toString().startsWith("{\"at\":\"then\"}"));
    }
  }

  @Test
  void aTickThatChangesLittleWritesLittle() throws Exception {
    BenchState state = state(tick.fresh(), START);
    int wholeBytes = Json.MAPPER.writeValueAsBytes(state).length;
    try (Journal journal = Journal.open(file())) {
      for (int i = 1; i < 60; i++) {
        journal.commit(entry(state, List.of()));
        state = state(state, START.plusSeconds(300L * i));
      }
    }
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file());
        Statement statement = connection.createStatement();
        var row = statement.executeQuery("SELECT length(body) FROM state")) {
      assertTrue(row.next());
      assertTrue(row.getInt(1) < wholeBytes / 4, row.getInt(1) + " of " + wholeBytes);
    }
  }

  @Test
  void aRecordWithinARecordThatComesOrGoesIsToldWhole() throws Exception {
    CupState fresh = tick.fresh().cups().get("A1");
    CupState seen = state(tick.fresh(), START).cups().get("A1");
    for (CupState[] pair : new CupState[][] {{fresh, seen}, {seen, fresh}, {seen, seen}}) {
      RecordChanges changes = RecordChanges.of(CupState.class);
      var bytes = new ByteArrayOutputStream();
      try (var to = Cbor.MAPPER.createGenerator(bytes)) {
        changes.write(pair[0], pair[1], to);
      }
      JsonNode told = Cbor.MAPPER.readTree(bytes.toByteArray());
      ObjectNode record = (ObjectNode) Cbor.MAPPER.readTree(Cbor.MAPPER.writeValueAsBytes(pair[0]));
      RecordChanges.putInto(record, told);
      assertEquals(pair[1], Cbor.MAPPER.treeToValue(record, CupState.class));
    }
  }
}
