package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Capacity.Teacher;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Soaked, drained and said so. A2 is predicted to weigh 238.0 g at capacity, 46.2 g without water;
 * of its 191.8 mL a cutting can take 163.8.
 */
class CapacityStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final String SAID = "{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A2\"}";
  private static final String SURE =
      "{\"id\":\"s\",\"kind\":\"drained\",\"cup\":\"A2\",\"sure\":true}";

  /** In the evening, so that nothing is pumped. */
  private static Story at(double grossG) {
    return Story.from("2027-02-14T18:00:00Z").with("A2", grossG);
  }

  private static Story at(double grossG, Tick.Rounds rounds) {
    return new Story(Story.BENCH, "2027-02-14T18:00:00Z", rounds).with("A2", grossG);
  }

  private static Capacity capacity(Story story) {
    return story.state.cups().get("A2").weight().estimate().capacity();
  }

  private static double depletion(Advice advice) {
    return advice.cups().get("A2").depletion();
  }

  private static Receipt receipt(Advice advice, String id) {
    List<Receipt> own = advice.receipts().stream().filter(r -> id.equals(r.id())).toList();
    assertEquals(1, own.size(), "one receipt of " + id + " in " + advice.receipts());
    return own.get(0);
  }

  private static void silent(Advice advice) {
    assertEquals(List.of(), advice.receipts());
  }

  @ParameterizedTest
  @ValueSource(ints = {5, 10})
  void soakedBetweenTwoLinesTheNextReadingThatAgreesIsTheCapacity(int minutes) {
    Story story = at(199.1);
    story.look();
    story.with("A2", 245.6).wait(Duration.ofMinutes(minutes));
    assertEquals("taken", receipt(story.look(SAID), "d").outcome(), "one reading shows no rest");
    assertFalse(capacity(story).learned());
    story.with("A2", 245.5).wait(Duration.ofMinutes(minutes));
    Advice rests = story.look();
    Receipt done = receipt(rests, "d");
    assertEquals("done", done.outcome());
    assertEquals(
        "learned: \"A2\" weighs 245.5 g at capacity; 238.0 g was believed before (predicted)",
        done.why());
    assertEquals(new Receipt.Capacity(245.5, 238.0, "prediction"), done.capacity());
    assertEquals(0.0, depletion(rests), 0.01);
    story.run(Duration.ofHours(1));
    assertEquals(0.0, depletion(story.look()), 0.01);
  }

  @Test
  void cupThatHasStoodAtRestIsLearnedOnTheOrdersOwnLine() {
    Story story = at(240.0);
    story.look();
    Advice said = story.with("A2", 239.8).wait(TICK).look(SAID);
    assertEquals("done", receipt(said, "d").outcome());
    assertEquals(239.8, capacity(story).massG(), 0.05);
    assertEquals(Teacher.WEIGHING, capacity(story).by());
  }

  @Test
  void firstLineOfAllIsTakenAtItsWord() {
    Story story = at(240.0);
    assertEquals("done", receipt(story.look(SAID), "d").outcome());
    assertEquals(240.0, capacity(story).massG(), 1e-9);
  }

  @Test
  void putBackAndSaidAtOnceWaitsForTenQuietMinutes() {
    Story story = at(199.0);
    story.look();
    story.with("A2", 0.2).wait(TICK).look();
    story.wait(Duration.ofMinutes(20)).look();
    Advice back = story.with("A2", 246.0).wait(TICK).look(SAID);
    assertEquals("taken", receipt(back, "d").outcome());
    silent(story.wait(TICK).look());
    Receipt done = receipt(story.wait(TICK).look(), "d");
    assertEquals("done", done.outcome());
    assertEquals(246.0, capacity(story).massG(), 0.05);
  }

  @Test
  void saidALineAfterItWasPutBack() {
    Story story = at(199.0);
    story.look();
    story.with("A2", 0.2).wait(TICK).look();
    story.with("A2", 246.0).wait(TICK).look();
    assertEquals("taken", receipt(story.wait(TICK).look(SAID), "d").outcome());
    assertEquals("done", receipt(story.wait(TICK).look(), "d").outcome());
    assertEquals(246.0, capacity(story).massG(), 0.05);
  }

  @Test
  void backAndDrainedOnOneLineLearnWhatStandsThereNow() {
    Story story = at(190.0);
    story.look();
    story.massG.remove("A2");
    story.wait(TICK).look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A2\"}");
    story.run(Duration.ofHours(1));
    story.with("A2", 246.0).wait(TICK);
    Advice back = story.look("{\"id\":\"b\",\"kind\":\"back\",\"cup\":\"A2\"}", SAID);
    assertEquals("taken", receipt(back, "d").outcome());
    assertEquals("done", receipt(story.wait(TICK).look(), "d").outcome());
    assertEquals(246.0, capacity(story).massG(), 0.05, "56 g more than before it was taken away");
  }

  @Test
  void drippingInPlaceIsWaitedFor() {
    Story story = at(199.0);
    story.look();
    double[] drips = {258.3, 251.4, 247.2, 245.1, 244.2, 243.9};
    Advice said = story.with("A2", drips[0]).wait(TICK).look(SAID);
    assertEquals("taken", receipt(said, "d").outcome());
    for (int i = 1; i < 5; i++) {
      silent(story.with("A2", drips[i]).wait(TICK).look());
    }
    assertEquals("done", receipt(story.with("A2", drips[5]).wait(TICK).look(), "d").outcome());
    assertEquals(243.9, capacity(story).massG(), 0.05);
  }

  @Test
  void stillDrippingAfterHalfAnHourChangesNothing() {
    Story story = at(199.0);
    story.look();
    story.with("A2", 262.1).wait(TICK).look(SAID);
    for (int i = 1; i <= 6; i++) {
      silent(story.with("A2", 262.1 - 2.2 * i).wait(TICK).look());
    }
    Receipt refused = receipt(story.with("A2", 247.3).wait(TICK).look(), "d");
    assertEquals("refused", refused.outcome());
    assertEquals("still dripping: say it again (it was not at rest within 30 min)", refused.why());
    assertFalse(capacity(story).learned());
    assertEquals("done", receipt(story.wait(TICK).look(SURE), "s").outcome(), "said again");
  }

  @Test
  void orderOnALineWithoutTheCupWaitsForIt() {
    Story story = at(244.0);
    story.look();
    story.massG.remove("A2");
    assertEquals("taken", receipt(story.wait(TICK).look(SAID), "d").outcome());
    story.with("A2", 244.0);
    assertEquals("done", receipt(story.wait(TICK).look(), "d").outcome(), "it had stood there");
    Story gone = at(244.0);
    gone.look();
    gone.massG.remove("A2");
    gone.wait(TICK).look(SAID);
    gone.run(Duration.ofMinutes(30));
    Receipt refused = receipt(gone.wait(TICK).look(), "d");
    assertEquals("still dripping: say it again (it was not weighed within 30 min)", refused.why());
  }

  @Test
  void scaleUsedOnceADayOrLinesTypedByHandShowTheWeightItself() {
    for (Tick.Rounds rounds : Tick.Rounds.values()) {
      Story story = at(199.0, rounds);
      story.look();
      Advice said = story.with("A2", 246.0).wait(Duration.ofDays(1)).look(SAID);
      assertEquals("done", receipt(said, "d").outcome());
      assertEquals(246.0, capacity(story).massG(), 1e-9);
    }
  }

  @Test
  void readingInDoubtIsNotLearned() {
    Story story = at(240.0);
    story.look();
    story.wait(TICK).look();
    assertEquals("taken", receipt(story.with("A2", 252.0).wait(TICK).look(SAID), "d").outcome());
    silent(story.with("A2", 240.0).wait(TICK).look());
    assertEquals("done", receipt(story.wait(TICK).look(), "d").outcome());
    assertEquals(240.0, capacity(story).massG(), 0.1, "the spike says nothing");
  }

  @Test
  void oneTapOnAHalfDryCupIsAskedAbout() {
    Story story = at(238.0);
    story.look(SAID);
    story.with("A2", 166.0).wait(Duration.ofDays(5)).look();
    Receipt asked = receipt(story.wait(TICK).look(SAID.replace("\"d\"", "\"e\"")), "e");
    assertEquals("refused", asked.outcome());
    assertEquals(
        "\"A2\" weighs 166.0 g, but 238.0 g was believed at capacity (weighed): more than 16.4 g"
            + " apart; look at it, then weigh it again or say it with sure: true",
        asked.why());
    assertEquals(new Receipt.Capacity(166.0, 238.0, "weighing"), asked.capacity());
    assertEquals(238.0, capacity(story).massG(), 1e-9, "nothing changed");
    assertEquals("done", receipt(story.wait(TICK).look(SURE), "s").outcome());
    assertEquals(166.0, capacity(story).massG(), 1e-9);
  }

  /**
   * A tenth of 163.8 mL from a weighing, a fifth beyond a plateau, a quarter beyond a prediction
   * (two standard deviations of which are 19.2 g), and a tenth or those below; heavier than
   * saturated it cannot be.
   */
  @ParameterizedTest
  @CsvSource({
    "WEIGHING, 254.3, done", "WEIGHING, 254.5, refused", "WEIGHING, 221.7, done",
    "WEIGHING, 221.5, refused", "PLATEAU, 270.7, done", "PLATEAU, 270.9, refused",
    "PLATEAU, 221.7, done", "PLATEAU, 221.5, refused", "PREDICTION, 275.9, done",
    "PREDICTION, 218.9, done", "PREDICTION, 218.7, refused"
  })
  void farFromWhatWasBelievedIsAskedAboutAndLearnedOnlyIfSure(
      Teacher by, double drainedG, String outcome) {
    Story story = at(drainedG);
    story.look();
    teach(story, by);
    Receipt said = receipt(story.wait(TICK).look(SAID), "d");
    assertEquals(outcome, said.outcome(), said.why());
    assertEquals("done", receipt(story.wait(TICK).look(SURE), "s").outcome());
    assertEquals(drainedG, capacity(story).massG(), 1e-9);
  }

  private static void teach(Story story, Teacher by) {
    CupState kept = story.state.cups().get("A2");
    CupDraft cup = new CupDraft(kept);
    Capacity before = kept.weight().estimate().capacity();
    Capacity taught =
        switch (by) {
          case PREDICTION -> before;
          case PLATEAU -> before.found(story.at, 238.031);
          case WEIGHING -> before.weighed(story.at, 238.031);
        };
    cup.weight = cup.weight.with(cup.weight.estimate().withCapacity(taught));
    var cups = new java.util.TreeMap<>(story.state.cups());
    cups.put("A2", cup.state());
    story.state = story.state.over(cups, story.state.air(), story.state.tanks());
  }

  @Test
  void noWeightIsTakenThatLeavesHardlyAnyWater() {
    Story story = at(110.0);
    story.look();
    Receipt refused = receipt(story.wait(TICK).look(SURE), "s");
    assertEquals("refused", refused.outcome());
    assertTrue(refused.why().contains("cannot weigh less than 123.5 g"), refused.why());
    assertNull(refused.capacity(), "there is nothing to be sure of");
  }

  @Test
  void newestWordCountsWhileOneWaits() {
    Story story = at(199.0);
    story.look();
    story.with("A2", 246.0).wait(TICK).look(SAID);
    Advice again = story.with("A2", 244.0).wait(TICK).look(SURE);
    assertEquals("said again by order s", receipt(again, "d").why());
    assertEquals("taken", receipt(again, "s").outcome());
    assertEquals("done", receipt(story.wait(TICK).look(), "s").outcome());
  }

  @Test
  void orderThatWaitsSurvivesARestart() throws Exception {
    Story story = at(199.0);
    story.look();
    story.with("A2", 246.0).wait(TICK).look(SAID);
    String kept = Json.MAPPER.writeValueAsString(story.state);
    story.state = Json.MAPPER.readValue(kept, BenchState.class);
    assertEquals("done", receipt(story.wait(TICK).look(), "d").outcome());
  }

  @Test
  void stateKeptBeforeTheTeacherWasIsReadAsTaughtByAPlateau() throws Exception {
    Story story = at(240.0);
    story.look(SAID);
    ObjectNode kept = Json.MAPPER.valueToTree(story.state);
    ((ObjectNode) kept.get("orders")).remove("done");
    for (var cup : kept.get("cups")) {
      ObjectNode weight = (ObjectNode) cup.get("weight");
      weight.remove("weighing");
      ((ObjectNode) weight.get("estimate").get("capacity")).remove(List.of("by", "doubted_at"));
    }
    story.state = Json.MAPPER.treeToValue(kept, BenchState.class);
    assertEquals(Teacher.PLATEAU, capacity(story).by());
    assertEquals(
        Teacher.PREDICTION, story.state.cups().get("A1").weight().estimate().capacity().by());
    assertEquals(0.0, depletion(story.wait(TICK).look()), 0.01);
    assertEquals("done", receipt(story.wait(TICK).look(SURE), "s").outcome());
  }
}
