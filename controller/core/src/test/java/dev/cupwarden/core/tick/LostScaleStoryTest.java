package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A1, toughened, loses a gram an hour for four days; then its scale falls silent. */
class LostScaleStoryTest {
  private static final double RATE_G_PER_H = 1.0;

  private Story story;

  @BeforeEach
  void itsScaleFallsSilent() {
    story = Story.from("2027-02-10T18:00:00Z").with("A1", 385.0).with("A2", 202.3);
    story.rateGPerH.put("A1", RATE_G_PER_H);
    story.run(Duration.ofDays(4));
    story.massG.remove("A1");
    Advice silent = story.run(Duration.ofMinutes(20));
    assertTrue(silent.cups().get("A1").checks().contains("untrusted"));
    assertFalse(story.raised("scale-silent"), "it is not due before tomorrow");
  }

  @Test
  void isWateredOnByWhatItUsedForAsLongAsThatCanBeKnown() {
    story.run(Duration.ofHours(5));
    assertEquals(0.0, story.givenMl("A1"), "a scale may come back by itself");
    story.run(Duration.ofDays(14));
    double usedMl = 14.2 * 24 * RATE_G_PER_H;
    double givenMl = story.givenMl("A1");
    assertTrue(givenMl > 0.9 * usedMl && givenMl < 1.3 * usedMl, givenMl + " mL");
    Advice.CupReport told = story.look().cups().get("A1");
    assertFalse(told.trusted());
    assertTrue(told.sd() > 0.15 && told.sd() < 0.30, told.toString());
    assertFalse(story.cleared("blind-ration"));
  }

  /** A mix that holds 19 % air when drained, where roots need 22 %. */
  @Test
  void getsNothingMoreOnceItCouldBeTooWet() {
    Story fine =
        new Story(
                Story.BENCH.replace("least_air: 0.10", "least_air: 0.22"),
                "2027-02-10T18:00:00Z",
                Tick.Rounds.ONE_A_TICK)
            .with("A1", 385.0);
    fine.rateGPerH.put("A1", RATE_G_PER_H);
    fine.run(Duration.ofDays(4));
    fine.massG.remove("A1");
    fine.run(Duration.ofDays(35));
    double beforeMl = fine.givenMl("A1");
    fine.run(Duration.ofDays(5));
    assertEquals(beforeMl, fine.givenMl("A1"));
    assertTrue(gotNothingMore(fine));
    assertTrue(fine.raised("near-dry"));
  }

  private static boolean gotNothingMore(Story story) {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals("blind-ration"))
        .anyMatch(alert -> alert.whatToDo().contains("it gets nothing more"));
  }

  /** Something that a person takes away again may stand there: a day is waited for that. */
  @Test
  void isWateredAfterADayThoughItsScaleHasGoneWild() {
    Story wild = Story.from("2027-02-10T18:00:00Z").with("A1", 385.0);
    wild.rateGPerH.put("A1", RATE_G_PER_H);
    wild.run(Duration.ofDays(4));
    wild.with("A1", 5000.0).rateGPerH.remove("A1");
    wild.run(Duration.ofHours(23));
    assertEquals(0.0, wild.givenMl("A1"));
    wild.run(Duration.ofDays(6));
    double givenMl = wild.givenMl("A1");
    assertTrue(givenMl > 2 * 24 * RATE_G_PER_H && givenMl < 7 * 24 * RATE_G_PER_H, givenMl + " mL");
  }

  @Test
  void aCupThatWasLiftedIsNotBlind() {
    Story lifted = Story.from("2027-02-10T18:00:00Z").with("A1", 385.0).with("A2", 202.3);
    lifted.rateGPerH.put("A1", RATE_G_PER_H);
    lifted.run(Duration.ofDays(4));
    lifted.with("A1", 0.4).run(Duration.ofMinutes(20));
    lifted.massG.remove("A1");
    lifted.run(Duration.ofDays(6));
    assertEquals(0.0, lifted.givenMl("A1"), "nobody knows where it stands");
    assertTrue(lifted.raised("cup-away"));
  }

  @Test
  void aStateOfAnOlderProgramIsGoneOnWith() throws Exception {
    ObjectNode kept = Json.MAPPER.valueToTree(story.state);
    kept.get("cups").forEach(cup -> ((ObjectNode) cup).remove("reckoning"));
    Story older = Story.from("2027-02-10T18:00:00Z").with("A2", 202.3);
    older.state = Json.MAPPER.treeToValue(kept, BenchState.class);
    older.at = story.at;
    older.run(Duration.ofDays(4));
    assertTrue(older.givenMl("A1") > 40.0, older.passes.toString());
  }

  @Test
  void aCupWateredByHandForWeeksIsToldNearDryThoughNobodyWeighsIt() {
    story.run(Duration.ofDays(4));
    for (int i = 0; i < 2; i++) {
      story.wait(Duration.ofMinutes(5)).look(watered("w" + i, 150));
      story.run(Duration.ofDays(6));
    }
    story.run(Duration.ofDays(7));
    assertTrue(story.raised("near-dry"), story.look().cups().get("A1").toString());
    assertTrue(
        story.alerts.stream()
            .filter(alert -> alert.code().equals("near-dry") && !alert.state().equals("cleared"))
            .allMatch(AlertNotice::bound),
        "what nobody weighs is told by its bound");
  }

  private static String watered(String id, double ml) {
    return "{\"id\":\"%s\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":%.0f,\"strength\":0}"
        .formatted(id, ml);
  }

  @Test
  void aSlowCupsRationsAreSavedUpUntilTheyAreWorthAPass() {
    Story slow = Story.from("2027-02-10T18:00:00Z").with("A2", 190.0);
    slow.rateGPerH.put("A2", 0.5);
    slow.run(Duration.ofDays(4));
    slow.massG.remove("A2");
    slow.run(Duration.ofDays(6));
    // A struck cup gets three tenths of 12 mL a day: 10.8 mL in three days, in passes of 5 mL or
    // more.
    assertTrue(slow.givenMl("A2") >= 5.0 && slow.givenMl("A2") <= 10.8, slow.passes.toString());
  }

  @Test
  void theRationIsNotCalledOffBeforeTheCupIsWeighedAgain() {
    story.run(Duration.ofDays(6));
    assertFalse(story.cleared("blind-ration"));
    story.with("A1", 280.0).run(Duration.ofHours(1));
    assertTrue(story.cleared("blind-ration"));
  }

  @Test
  void whatAPersonGaveMeanwhileIsSeenInItsDepletion() {
    double before = story.look().cups().get("A1").depletion();
    Advice told = story.wait(Duration.ofMinutes(5)).look(watered("w", 80));
    assertEquals("done", told.receipts().get(0).outcome());
    assertTrue(told.cups().get("A1").depletion() < before - 0.25, told.toString());
  }
}
