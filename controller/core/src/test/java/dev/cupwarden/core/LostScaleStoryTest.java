package dev.cupwarden.core;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A1, toughened, loses a gram an hour for four days; then its scale falls silent. */
class LostScaleStoryTest {
  private static final double RATE_G_PER_H = 1.0;

  /** Three days of three fifths of what it used. */
  private static final double MOST_ML = 3 * 0.6 * 24 * RATE_G_PER_H;

  private Story story;

  @BeforeEach
  void itsScaleFallsSilent() {
    story = Story.from("2027-02-10T18:00:00Z").with("A1", 385.0).with("A2", 202.3);
    story.rateGPerH.put("A1", RATE_G_PER_H);
    story.run(Duration.ofDays(4));
    story.massG.remove("A1");
    story.run(Duration.ofMinutes(20));
    assertTrue(story.raised("scale-silent"));
  }

  @Test
  void getsThreeDaysRationThoughItsWeightIsEverLessSure() {
    story.run(Duration.ofHours(23));
    assertEquals(0.0, story.givenMl("A1"), "not on the first day");
    story.run(Duration.ofDays(4));
    double givenMl = story.givenMl("A1");
    assertTrue(givenMl > 0.9 * MOST_ML && givenMl < 1.1 * MOST_ML, givenMl + " mL");
    assertTrue(story.raised("blind-ration"));
    story.run(Duration.ofDays(3));
    assertEquals(givenMl, story.givenMl("A1"), "and none after three days");
  }

  /**
   * Rations are reckoned from all that was given since; a daily label's ledger looks back a day.
   */
  @Test
  void getsNoMoreOfAScaleGoneWildWhereTheLabelSaysDaily() {
    String daily = Story.BENCH.replace("every: 14 d", "every: 1 d");
    assertFalse(daily.equals(Story.BENCH));
    Story wild = new Story(daily, "2027-02-10T18:00:00Z", Tick.Rounds.ONE_A_TICK);
    wild.with("A1", 385.0).rateGPerH.put("A1", RATE_G_PER_H);
    wild.run(Duration.ofDays(4));
    wild.with("A1", 5000.0).rateGPerH.remove("A1");
    wild.run(Duration.ofDays(6));
    double givenMl = wild.givenMl("A1");
    assertTrue(givenMl > 0.9 * MOST_ML && givenMl < 1.1 * MOST_ML, givenMl + " mL");
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
