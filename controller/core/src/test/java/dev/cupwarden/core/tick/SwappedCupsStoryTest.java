package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Two cups of six are put in one another's places, and then back, or not. */
class SwappedCupsStoryTest {
  private static final String BENCH = bench();
  private static final double WET_G = 385.0;
  private static final double RATE_G_PER_H = 0.4;

  private static String bench() {
    StringBuilder yaml = new StringBuilder(Story.BENCH);
    for (int i = 3; i <= 6; i++) {
      yaml.append("  A").append(i).append(": {vessel: tall, mix: coir-perlite, plant: rose,");
      yaml.append(" struck: 2026-11-14, stage: toughened, cutting: 14 g}\n");
    }
    return yaml.toString()
        .replace(
            "A2: {vessel: short, mix: coir-perlite, plant: mulberry,     struck: 2026-12-02, stage:"
                + " struck,    cutting: 9 g}",
            "A2: {vessel: tall, mix: coir-perlite, plant: mulberry, struck: 2026-12-02, stage:"
                + " toughened, cutting: 14 g}");
  }

  /** Watched for five days; then A1 and A2 differ by so much. */
  private static Story watched(String yaml, double lighterG) {
    Story story = new Story(yaml, "2027-02-10T18:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (String cup : story.bench.cups().keySet()) {
      story.with(cup, WET_G).rateGPerH.put(cup, RATE_G_PER_H);
    }
    story.with("A2", WET_G - lighterG).run(Duration.ofDays(5));
    assertEquals(lighterG, story.massG.get("A1") - story.massG.get("A2"), 1e-6, "none watered");
    return story;
  }

  private static Story exchanged(double lighterG) {
    Story story = watched(BENCH, lighterG);
    exchange(story);
    story.run(Duration.ofMinutes(30));
    assertTrue(latched(story, "A1") && latched(story, "A2"), story.alerts.toString());
    return story;
  }

  /** What stands on either scale, with all that it does, is put on the other. */
  private static void exchange(Story story) {
    double firstG = story.massG.get("A1");
    double firstRate = story.rateGPerH.get("A1");
    story.with("A1", story.massG.get("A2")).with("A2", firstG);
    story.rateGPerH.put("A1", story.rateGPerH.get("A2"));
    story.rateGPerH.put("A2", firstRate);
  }

  /** Both off their scales for one look, and then there again as they were. */
  private static void lift(Story story) {
    double firstG = story.massG.get("A1");
    double secondG = story.massG.get("A2");
    story.with("A1", 0.0).with("A2", 0.0);
    story.run(Duration.ofMinutes(5));
    story.with("A1", firstG).with("A2", secondG);
  }

  private static boolean latched(Story story, String cup) {
    return story.state.cups().get(cup).latch() != null;
  }

  private static double depletion(Story story, String cup, double massG) {
    CupState kept = story.state.cups().get(cup);
    CupFrame frame = new CupFrames(story.bench).of(kept.setup());
    return kept.weight().estimate().frame(frame.weights()).depletion(massG);
  }

  private static List<AlertNotice> told(Story story, String code, String cup) {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals(code) && cup.equals(alert.cup()))
        .toList();
  }

  private static boolean over(Story story, String cup) {
    return told(story, "cups-swapped", cup).stream().anyMatch(a -> a.state().equals("cleared"));
  }

  @ParameterizedTest
  @ValueSource(doubles = {4, 8, 25})
  void putBackAfterThreeDaysTheyAreWateredAgain(double apartG) {
    Story story = exchanged(apartG);
    story.run(Duration.ofDays(3));
    assertTrue(latched(story, "A1") && latched(story, "A2"));
    assertEquals(0.0, story.givenMl("A1") + story.givenMl("A2"));
    Advice.CupReport first = story.look().cups().get("A1");
    double ownG = story.massG.get("A2");
    assertEquals(depletion(story, "A1", ownG), first.depletion(), 0.03, "its own, not A2's");
    assertFalse(first.trusted());
    exchange(story);
    story.run(Duration.ofMinutes(40));
    assertFalse(latched(story, "A1") || latched(story, "A2"), story.state.cups().toString());
    assertTrue(over(story, "A1") && over(story, "A2"), "that it is over is told");
    assertFalse(story.raised("blind-ration"));
    assertTrue(story.look().cups().get("A1").trusted());
    story.run(Duration.ofDays(7));
    assertTrue(story.givenMl("A1") > 0 && story.givenMl("A2") > 0, story.passes.toString());
  }

  @ParameterizedTest
  @ValueSource(doubles = {4, 8, 25})
  void notPutBackTheyStayLatchedThoughBothAreLiftedAndLookedAt(double apartG) {
    Story story = exchanged(apartG);
    story.run(Duration.ofDays(3));
    lift(story);
    story.run(Duration.ofHours(6));
    assertTrue(latched(story, "A1") && latched(story, "A2"));
    assertEquals(0.0, story.givenMl("A1") + story.givenMl("A2"));
    assertFalse(story.raised("cup-away"));
  }

  @Test
  void aPersonsWordEndsItForThatCupAlone() {
    Story story = exchanged(8);
    story.run(Duration.ofDays(3));
    story.look("{\"id\":\"c\",\"kind\":\"clear\",\"cup\":\"A1\"}");
    assertFalse(latched(story, "A1"));
    assertTrue(latched(story, "A2"));
    assertFalse(story.raised("blind-ration"));
  }

  @Test
  void whoPutsBothBackAndClearsOneAtOnceHasClearedBoth() {
    Story story = exchanged(8);
    story.run(Duration.ofHours(20));
    exchange(story);
    story.wait(Duration.ofMinutes(5)).look("{\"id\":\"c\",\"kind\":\"clear\",\"cup\":\"A1\"}");
    story.run(Duration.ofMinutes(40));
    assertFalse(latched(story, "A1") || latched(story, "A2"), story.alerts.toString());
    assertEquals(
        1,
        told(story, "cups-swapped", "A1").stream().filter(a -> a.state().equals("raised")).count());
  }

  @Test
  void theyMayBeSeenOffTheirScalesOnTheWayBack() {
    Story story = exchanged(25);
    story.run(Duration.ofDays(1));
    exchange(story);
    lift(story);
    story.run(Duration.ofHours(2));
    assertFalse(latched(story, "A1") || latched(story, "A2"), story.alerts.toString());
  }

  @Test
  void onlyOneOfThemHandledIsNoReturn() {
    Story story = exchanged(8);
    story.run(Duration.ofDays(1));
    story.with("A1", story.massG.get("A1") + 8.0);
    story.run(Duration.ofMinutes(50));
    story.with("A2", story.massG.get("A2") - 8.0);
    story.run(Duration.ofHours(2));
    assertTrue(latched(story, "A1") && latched(story, "A2"));
  }

  /** A1 uses twice what A2 does and is 8 g heavier: after 40 h each place shows its own cup's. */
  @Test
  void weightsThatMeetByDryingAloneAreNoReturn() {
    Story story = new Story(BENCH, "2027-02-10T18:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (String cup : story.bench.cups().keySet()) {
      story.with(cup, WET_G).rateGPerH.put(cup, RATE_G_PER_H);
    }
    story.rateGPerH.put("A2", RATE_G_PER_H / 2.0);
    story.with("A2", WET_G - 32.0).run(Duration.ofDays(5));
    assertEquals(8.0, story.massG.get("A1") - story.massG.get("A2"), 1e-6);
    exchange(story);
    story.run(Duration.ofHours(40));
    assertEquals(story.massG.get("A1"), story.massG.get("A2"), 0.1);
    for (int i = 0; i < 12; i++) {
      story.run(Duration.ofHours(1));
      assertTrue(latched(story, "A1") && latched(story, "A2"));
    }
    assertTrue(
        told(story, "cups-swapped", "A1").get(0).whatToDo().contains("clear both"),
        "until then a person's word");
  }

  @Test
  void visitorTooHeavyForTheScaleIsTakenAwayAgain() {
    String yaml =
        BENCH.replace("A2: {vessel: tall", "A2: {vessel: short").replace("mulberry", "fig");
    Story story = new Story(yaml, "2027-02-10T18:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (String cup : story.bench.cups().keySet()) {
      story.with(cup, WET_G).rateGPerH.put(cup, RATE_G_PER_H);
    }
    story.with("A2", 200.0).rateGPerH.put("A2", 0.2);
    story.run(Duration.ofDays(5));
    double shortG = story.massG.get("A2");
    exchange(story);
    story.run(Duration.ofHours(1));
    assertTrue(latched(story, "A1") && latched(story, "A2"), story.alerts.toString());
    story.run(Duration.ofDays(3));
    assertEquals(
        depletion(story, "A2", shortG - 0.2 * 73), story.look().cups().get("A2").depletion(), 0.03);
    exchange(story);
    story.run(Duration.ofHours(1));
    assertFalse(latched(story, "A1") || latched(story, "A2"), story.alerts.toString());
  }

  @Test
  void oneWhosePartnerWasTakenOutIsJudgedByItsOwnStep() {
    Story story = exchanged(25);
    story.run(Duration.ofDays(1));
    double ownG = story.massG.get("A1") + 25.0;
    story.massG.remove("A2");
    story.look("{\"id\":\"r\",\"kind\":\"retire\",\"cup\":\"A2\",\"because\":\"dried\"}");
    story.run(Duration.ofHours(1));
    assertTrue(latched(story, "A1"), "still the other on its scale");
    story.with("A1", ownG - RATE_G_PER_H);
    story.run(Duration.ofMinutes(40));
    assertFalse(latched(story, "A1"), story.alerts.toString());
    assertTrue(over(story, "A1"));
  }

  @Test
  void oneWhosePartnerIsAwayIsJudgedByItsOwnStep() {
    Story story = exchanged(25);
    story.run(Duration.ofDays(1));
    exchange(story);
    story.with("A2", 0.0).look("{\"id\":\"w\",\"kind\":\"away\",\"cup\":\"A2\"}");
    story.run(Duration.ofMinutes(40));
    assertFalse(latched(story, "A1"), story.alerts.toString());
    assertTrue(latched(story, "A2"), "nobody saw it since");
  }

  @Test
  void aRestartInBetweenChangesNothing() throws Exception {
    Story story = exchanged(8);
    story.run(Duration.ofDays(3));
    exchange(story);
    for (int i = 0; i < 8; i++) {
      story.run(Duration.ofMinutes(5));
      String kept = Json.MAPPER.writeValueAsString(story.state);
      story.state = Json.MAPPER.readValue(kept, BenchState.class);
    }
    assertFalse(latched(story, "A1") || latched(story, "A2"));
  }

  @Test
  void nearDryIsToldByTheCupsOwnForecastAndNotByItsVisitors() {
    Story story = watched(BENCH, 25);
    story.rateGPerH.put("A2", 1.0);
    story.run(Duration.ofHours(12));
    story.alerts.clear();
    exchange(story);
    story.run(Duration.ofMinutes(30));
    assertTrue(latched(story, "A1") && latched(story, "A2"), story.alerts.toString());
    int days = 0;
    while (told(story, "near-dry", "A2").isEmpty() && days++ < 12) {
      story.run(Duration.ofDays(1));
    }
    assertTrue(days < 12, story.look().cups().toString());
    AlertNotice near = told(story, "near-dry", "A2").get(0);
    assertTrue(near.bound(), near.toString());
    assertTrue(near.whatToDo().contains("in the place of A1"), near.toString());
    assertEquals(List.of(), told(story, "near-dry", "A1"), "its scale shows a dry cup: another's");
    long raised =
        told(story, "cups-swapped", "A2").stream()
            .filter(a -> !a.state().equals("cleared"))
            .count();
    assertTrue(raised >= 2, "that they are exchanged is told again");
  }

  @Test
  void latchOfAnOlderProgramEndsByAPersonsWordOrTheOppositeExchange() throws Exception {
    Story story = exchanged(25);
    ObjectNode kept = Json.MAPPER.valueToTree(story.state);
    kept.get("cups").forEach(cup -> ((ObjectNode) cup).remove("misplaced"));
    story.state = Json.MAPPER.treeToValue(kept, BenchState.class);
    story.run(Duration.ofHours(2));
    assertTrue(latched(story, "A1") && latched(story, "A2"));
    exchange(story);
    story.run(Duration.ofMinutes(30));
    assertFalse(latched(story, "A1") || latched(story, "A2"));
  }
}
