package dev.cupwarden.host;

import static dev.cupwarden.host.Spoken.EIGHT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Event;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Presence;
import dev.cupwarden.core.messages.Topics;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How a bench is set up, which cuttings it had, and why each was or was not watered. */
class SetupAndDecisionsTest {
  private static final Duration DAY = Duration.ofDays(1);
  @TempDir static Path data;
  private static HostInTest host;

  @BeforeAll
  static void start() throws InterruptedException {
    host = new HostInTest(data);
  }

  @AfterAll
  static void stop() {
    host.close();
  }

  @Test
  void theSetUpIsReadAsItWasTold() throws Exception {
    var setup = Spoken.setup(EIGHT, "A1:vine", "A2:elder");
    host.bench().publish(new Topics("shelf").setup(), setup, true);
    JsonNode read = host.await("api/benches/shelf/setup", answer -> answer.has("cups"));
    assertEquals(Json.MAPPER.valueToTree(setup).toString(), read.toString());
    assertEquals(92.0, read.at("/vessels/tall/top_mm").asDouble());
    assertEquals("hardware", read.at("/limits/0/code").asText());
    assertEquals("mL", read.at("/limits/14/unit").asText());
  }

  /** Additive within v1: a controller of before tells no tables, and is heard all the same. */
  @Test
  void theSetUpOfAnEarlierControllerIsRead() throws Exception {
    ObjectNode setup = Json.MAPPER.valueToTree(Spoken.setup(EIGHT, "A1:vine"));
    setup.remove(List.of("limits", "alerts"));
    host.bench().publish(new Topics("older").setup(), setup, true);
    JsonNode read = host.await("api/benches/older/setup", answer -> answer.has("cups"));
    assertEquals("[]", read.get("limits").toString());
  }

  @Test
  void aBenchThatHasNotToldHowItIsSetUpHasNone() throws Exception {
    host.bench().publish(new Topics("new").presence(), new Presence("online", EIGHT), true);
    host.await("api/benches", answer -> answer.findValuesAsText("bench").contains("new"));
    assertEquals("null", host.get("api/benches/new/setup").body());
  }

  @Test
  void aCupThatWasTakenOutLeavesTheBenchButNotTheSeason() throws Exception {
    Topics topics = new Topics("season");
    host.bench().publish(topics.setup(), Spoken.setup(EIGHT, "A1:vine", "A2:elder"), true);
    host.bench().publish(topics.cup("A2"), Spoken.cup("A2", EIGHT, 301.5), true);
    host.await("api/benches/season/cups", answer -> answer.size() == 1);
    ObjectNode order = Json.MAPPER.createObjectNode().put("change", "order");
    order.putObject("order").put("kind", "retire").put("cup", "A2").put("because", "rotted");
    host.bench()
        .publish(topics.events(), new Event("e", 1, EIGHT.plus(DAY), "change", "A2", order), false);
    host.bench().publish(topics.setup(), Spoken.setup(EIGHT.plus(DAY), "A1:vine"), true);
    host.await("api/benches/season/cups", answer -> answer.isEmpty());
    JsonNode cuttings =
        host.await(
            "api/benches/season/cuttings",
            answer -> answer.at("/1/because").asText().equals("rotted"));
    assertTrue(cuttings.at("/0/gone").isNull());
    assertEquals("elder", cuttings.at("/1/plant").asText());
    assertEquals(EIGHT.plus(DAY).toString(), cuttings.at("/1/gone").asText());
  }

  private static Event rootsSeen(long seq, Instant at, String stage, String day, String band) {
    ObjectNode seen = Json.MAPPER.createObjectNode().put("change", "roots-seen");
    seen.put("stage", stage).put("day", day);
    String[] days = band.split(" ", -1);
    seen.putObject("foretold").put("from", days[0]).put("likely", days[1]).put("to", days[2]);
    return new Event("e", seq, at, "change", "A1", seen);
  }

  /** The bench says that the roots are toughened: those that circled were taken back. */
  @Test
  void rootsThatWereForetoldStandBesideTheDayOnWhichTheyWereSeen() throws Exception {
    Topics topics = new Topics("foretold");
    host.bench().publish(topics.setup(), Spoken.setup(EIGHT, "A1:vine", "A2:elder"), true);
    String white = "2027-01-21 2027-01-25 2027-02-01";
    String toughened = "2027-02-01 2027-02-05 2027-02-12";
    List<Event> told =
        List.of(
            rootsSeen(1, EIGHT.plusSeconds(1), "white", "2027-01-20", white),
            rootsSeen(2, EIGHT.plusSeconds(2), "white", "2027-01-22", white),
            rootsSeen(
                3, EIGHT.plusSeconds(3), "white", "2027-01-23", "never 2027-01-25 2027-02-01"),
            rootsSeen(4, EIGHT.plusSeconds(4), "toughened", "2027-02-20", toughened),
            rootsSeen(5, EIGHT.plusSeconds(5), "circling", "2027-02-21", toughened));
    for (Event event : told) {
      host.bench().publish(topics.events(), event, false);
    }
    JsonNode cuttings =
        host.await("api/benches/foretold/cuttings", answer -> answer.at("/0/foretold").size() == 2);
    assertEquals(
        """
        [{"roots":"white","day":"2027-01-22","from":"2027-01-21","likely":"2027-01-25","to":"2027-02-01"},\
        {"roots":"toughened","day":"2027-02-20","from":"2027-02-01","likely":"2027-02-05","to":"2027-02-12"}]\
        """,
        cuttings.at("/0/foretold").toString());
    assertTrue(cuttings.at("/1/foretold").isEmpty());
  }

  @Test
  void aSlipTakenBackIsTheSameCuttingAndAnotherPlantIsAnother() throws Exception {
    Topics topics = new Topics("slip");
    String[][] told = {{"A1:vine"}, {}, {"A1:vine"}, {"A1:elder"}};
    for (int i = 0; i < told.length; i++) {
      String at = EIGHT.plus(DAY.multipliedBy(i)).toString();
      host.bench().publish(topics.setup(), Spoken.setup(Instant.parse(at), told[i]), true);
      // Of several that come at once only the newest would be written.
      host.await("api/benches/slip/setup", setup -> setup.path("at").asText().equals(at));
    }
    JsonNode cuttings = host.await("api/benches/slip/cuttings", answer -> answer.size() == 2);
    assertEquals("vine", cuttings.at("/0/plant").asText());
    assertEquals(EIGHT.plus(DAY.multipliedBy(3)).toString(), cuttings.at("/0/gone").asText());
    assertTrue(cuttings.at("/1/gone").isNull());
  }

  @Test
  void whyItWasNotWateredAtAnyMoment() throws Exception {
    Topics topics = new Topics("why");
    host.bench()
        .publish(topics.events(), Spoken.decision("e", 1, "A1", EIGHT, 0.5, "window"), false);
    host.bench()
        .publish(
            topics.events(), Spoken.decision("e", 2, "A1", EIGHT.plus(DAY), 0.6, "cold"), false);
    Instant again = EIGHT.plusSeconds(1800);
    host.bench()
        .publish(topics.events(), Spoken.decision("e", 3, "A1", again, 0.5, "window"), false);
    host.await("api/benches/why/events?kind=decision", answer -> answer.size() == 3);
    JsonNode at = host.json("api/benches/why/cups/A1/reasons?at=" + EIGHT.plusSeconds(3600));
    assertEquals("window", at.at("/reasons/0/code").asText());
    assertEquals(EIGHT.toString(), at.get("since").asText(), "the same reasons since then");
    assertEquals(again.toString(), at.get("told").asText());
    assertEquals(EIGHT.plus(DAY).toString(), at.get("until").asText());
    JsonNode now = host.json("api/benches/why/cups/A1/reasons");
    assertEquals("cold", now.at("/reasons/0/code").asText());
    assertTrue(now.get("until").isNull());
    String before = "api/benches/why/cups/A1/reasons?at=" + EIGHT.minusSeconds(1);
    assertEquals(
        "Nothing is known of cup A1 at that time.", host.json(before).at("/error").asText());
    JsonNode course = host.json("api/benches/why/cups/A1/course");
    assertEquals("[0.5,0.5,0.6]", course.get("depletion").toString());
    assertEquals(EIGHT.getEpochSecond(), course.at("/at/0").asLong());
    assertEquals(0.7, course.at("/salt_ms_per_cm/2").asDouble());
    assertEquals(2.6, course.get("salt_most_ms_per_cm").asDouble());
  }

  @Test
  void tanksLastAsLongAsTheUseOfTheLastDaysTells() throws Exception {
    Topics topics = new Topics("thirsty");
    host.bench().publish(topics.setup(), Spoken.setup(EIGHT, "A1:vine"), true);
    host.bench().publish(topics.benchStatus(), Spoken.bench(EIGHT.plusSeconds(60)), true);
    JsonNode soon =
        host.await(
            "api/benches/thirsty/tanks", answer -> answer.at("/1/left_ml").asDouble() == 9000);
    assertTrue(soon.at("/1/use_ml_per_d").isNull(), "no day has passed yet");
    for (int day = 1; day <= 4; day++) {
      Instant at = EIGHT.plus(DAY.multipliedBy(day));
      host.bench().publish(topics.events(), Spoken.dose("e", day, "A1", at), false);
    }
    Instant now = EIGHT.plus(DAY.multipliedBy(4));
    host.bench().publish(topics.benchStatus(), Spoken.bench(now), true);
    JsonNode tanks =
        host.await(
            "api/benches/thirsty/tanks",
            answer -> Math.abs(answer.at("/1/use_ml_per_d").asDouble() - 20) < 1e-9);
    assertEquals("plain", tanks.at("/1/tank").asText());
    assertEquals(4 * DAY.toSeconds(), tanks.at("/1/use_over_s").asLong());
    // A litre lies below the float.
    assertEquals(
        now.plus(DAY.multipliedBy((9000 - 1000) / 20)).toString(),
        tanks.at("/1/lasts_until").asText());
    assertEquals("leafy", tanks.at("/0/feed").asText());
    assertEquals(0.0, tanks.at("/0/use_ml_per_d").asDouble());
    assertTrue(tanks.at("/0/lasts_until").isNull(), "what is not used lasts");
  }

  /** Common practice: half a US gallon at half of one teaspoon per gallon is a quarter teaspoon. */
  @Test
  void whatToWeighForATankIsTold() throws Exception {
    host.bench().publish(new Topics("mixed").setup(), Spoken.setup(EIGHT, "A1:vine"), true);
    String asked = "api/benches/mixed/recipe?feed=%s&strength=%s&volume_ml=1892.705892";
    JsonNode recipe = host.await(asked.formatted("leafy", "0.5"), answer -> answer.has("feed_g"));
    assertEquals(0.25, recipe.get("level_teaspoons").asDouble(), 1e-9);
    assertEquals("about 1/4 level teaspoon", recipe.get("spoons").asText());
    assertEquals(1.45, recipe.get("feed_g").asDouble(), 1e-9);
    assertEquals(
        "feed: expected one of leafy.",
        host.json(asked.formatted("bloom", "0.5")).at("/error").asText());
    assertEquals(
        "strength: expected a number.",
        host.json(asked.formatted("leafy", "half")).at("/error").asText());
    assertTrue(host.json(asked.formatted("leafy", "-1")).at("/error").asText().contains("0"));
    JsonNode pinch = host.json(asked.formatted("leafy", "0.1"));
    assertTrue(pinch.get("level_teaspoons").isNull(), "too little for a spoon");
    assertTrue(pinch.get("spoons").isNull());
  }
}
