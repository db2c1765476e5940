package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.setup.BenchChange;
import dev.cupwarden.core.setup.BenchText;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A bench file changed by orders while the bench runs. */
class ChangeBenchTest {
  private static final String LESS =
      "{\"id\":\"less\",\"kind\":\"change\",\"path\":\"watering.pass\",\"from\":\"30 mL\",\"to\":\"20 mL\"}";

  private Tick tick;
  private BenchState state;
  private Instant at = Instant.parse("2027-02-14T10:00:00Z");

  @BeforeEach
  void begin() throws SetupException {
    BenchText text = new BenchText("bench.yaml", Story.BENCH);
    tick = new Tick(text.read(), Optional.of(text), Tick.Rounds.ONE_A_TICK);
    state = tick.fresh();
  }

  /** A1, of some 430 g when full, weighs 262 g: it is due. */
  private Tick.Step look(String... orders) throws JsonProcessingException {
    List<JsonNode> written = new ArrayList<>();
    for (String order : orders) {
      written.add(Json.MAPPER.readTree(order));
    }
    SortedMap<String, Double> massG = new TreeMap<>();
    massG.put("A1", 262.0);
    OptionalDouble none = OptionalDouble.empty();
    Observation seen =
        new Observation(
            at,
            none,
            none,
            none,
            none,
            massG,
            new TreeMap<>(),
            new TreeMap<>(),
            false,
            false,
            false,
            written,
            false,
            false,
            false);
    Tick.Step step = tick.step(state, seen);
    tick = step.tick();
    state = step.state();
    at = at.plusSeconds(300);
    return step;
  }

  private static List<String> told(Tick.Step step) {
    return step.brief().receipts().stream()
        .map(receipt -> receipt.id() + " " + receipt.outcome())
        .toList();
  }

  @Test
  void holdsForTheLineThatItComesWithAndAllLater() throws Exception {
    Tick before = tick;
    Tick.Step step = look(LESS);
    assertEquals(List.of("less done"), told(step));
    assertEquals(20.0, step.passes().get(0).totalMl(), 0.05, "of 30 mL as the file had it");
    assertNotSame(before, tick);
    assertEquals(
        List.of(new BenchChange("watering.pass", "\"30 mL\"", "\"20 mL\"")),
        state.orders().changes());
    Tick changed = tick;
    look();
    assertSame(changed, tick);
    assertEquals(1, state.orders().changes().size());
  }

  @Test
  void comesBeforeTheOtherOrdersOfItsLine() throws Exception {
    String dose = "{\"id\":\"d\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":60,\"strength\":0}";
    Tick.Step step = look(dose, LESS);
    assertEquals(List.of("d taken", "less done"), told(step));
    assertEquals(20.0, step.passes().get(0).totalMl(), 0.05);
  }

  @Test
  void repeatedStaleAndWrongOnesChangeNothing() throws Exception {
    look(LESS);
    assertEquals(List.of("less refused"), told(look(LESS)));
    String again = LESS.replace("less", "again");
    Receipt refused = look(again).brief().receipts().get(0);
    assertEquals("watering.pass: from: it says \"20 mL\" now, not \"30 mL\"", refused.why());
    String stale = again.replace("\"again\"", "\"stale\",\"expires\":\"2027-02-14T09:00:00Z\"");
    assertTrue(look(stale).brief().receipts().get(0).why().contains("expired"));
    String wrong = LESS.replace("less", "wrong").replace("30 mL", "20 mL\",\"two\":\"");
    assertTrue(look(wrong).brief().receipts().get(0).why().contains("two: unknown field"));
    assertEquals(20.0, tick.bench().watering().passMl());
    assertEquals(1, state.orders().changes().size());
  }

  @Test
  void takenBackByTheOppositeOne() throws Exception {
    look(LESS);
    look(
        "{\"id\":\"b\",\"kind\":\"change\",\"path\":\"watering.pass\",\"from\":\"20 mL\",\"to\":\"30 mL\"}");
    assertEquals(List.of(), state.orders().changes());
    assertEquals(Story.BENCH, tick.text().orElseThrow().yaml());
  }

  @Test
  void secondChangeOfAKeyStillKnowsWhatTheFileSaid() throws Exception {
    look(LESS);
    look(
        "{\"id\":\"b\",\"kind\":\"change\",\"path\":\"watering.pass\",\"from\":\"20 mL\",\"to\":\"15 mL\"}");
    assertEquals(
        List.of(new BenchChange("watering.pass", "\"30 mL\"", "\"15 mL\"")),
        state.orders().changes());
  }

  /** The stage that a person has seen is not that of the file. */
  @Test
  void whatWasToldOfACupStands() throws Exception {
    look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"white\"}");
    look(
        "{\"id\":\"p\",\"kind\":\"change\",\"path\":\"cups.A2.plant\",\"from\":\"mulberry\",\"to\":\"fig\"}");
    assertEquals("fig", state.cups().get("A2").setup().plant());
    assertEquals(RootStage.WHITE, state.cups().get("A2").setup().stage());
  }

  /** Lines of A1 that are out of order with its mix: refused, and the bench goes on as it was. */
  @Test
  void linesOutOfOrderAreRefused() throws Exception {
    Tick.Step step =
        look(
            "{\"id\":\"l\",\"kind\":\"change\",\"path\":\"lines.toughened\",\"from\":null,"
                + "\"to\":{\"due\":0.8,\"refill\":0.0,\"dry\":0.7}}");
    assertEquals(List.of("l refused"), told(step));
    assertEquals(Story.BENCH, tick.text().orElseThrow().yaml());
  }

  @Test
  void benchOfNoFileRefuses() throws Exception {
    tick = new Tick(tick.bench());
    state = tick.fresh();
    Receipt refused = look(LESS).brief().receipts().get(0);
    assertEquals(
        "this bench was read from no file, and nothing of it can be changed", refused.why());
  }
}
