package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.estimate.Capacity;
import dev.cupwarden.core.estimate.Capacity.Teacher;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A learned capacity is doubted again. A1 is predicted to weigh 401.9 g at capacity, its wet line
 * lies at 450 g or so.
 */
class DoubtedCapacityTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  private static final String DRAINED = "{\"id\":\"%s\",\"kind\":\"drained\",\"cup\":\"A1\"}";
  private static final String SURE =
      "{\"id\":\"%s\",\"kind\":\"drained\",\"cup\":\"A1\",\"sure\":true}";

  private static Story weighedAt(double capacityG) {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", capacityG);
    story.look(SURE.formatted("d"));
    return story;
  }

  private static Capacity capacity(Story story) {
    return story.state.cups().get("A1").weight().estimate().capacity();
  }

  private static List<AlertNotice> asked(Story story) {
    return story.alerts.stream().filter(a -> a.code().equals("weigh-drained")).toList();
  }

  private static double wetLineG(Story story) {
    var status = story.tick.standing(story.state).statuses().get(0);
    return status.capacityG() - status.wet() * status.availableMl();
  }

  @Test
  void weightAtRestBeyondTheWetLineForSixHoursIsDoubtedAndBothCausesAreSaid() {
    Story story = weighedAt(400.0);
    story.wait(TICK).with("A1", wetLineG(story) + 15.0);
    story.run(Duration.ofHours(6));
    assertEquals(List.of(), asked(story));
    story.run(Duration.ofMinutes(10));
    assertEquals(1, asked(story).size());
    String what = asked(story).get(0).whatToDo();
    assertTrue(what.contains("that is wrong, or the cup stands in water"), what);
    assertTrue(what.contains("Tip out what stands under it, then weigh it drained"), what);
    assertEquals("raised", asked(story).get(0).state());
    assertEquals(400.0, capacity(story).massG(), 1e-9, "that is still what is believed");
    assertTrue(story.look().cups().get("A1").checks().contains("too-wet"));
    story.run(Duration.ofHours(44));
    AlertNotice worse = asked(story).get(asked(story).size() - 1);
    assertEquals(2, worse.severity(), "the clock goes on");
    assertTrue(worse.whatToDo().contains("Nothing is watered until it dries"), worse.whatToDo());
    assertTrue(story.look().cups().get("A1").checks().contains("wet-too-long"));
    assertFalse(story.raised("staying-wet") || story.raised("wet-too-long"), "one story");
  }

  @Test
  void onlyAWeighingEndsTheDoubt() {
    Story story = weighedAt(400.0);
    double heavyG = wetLineG(story) + 15.0;
    story.wait(TICK).with("A1", heavyG).run(Duration.ofHours(7));
    assertTrue(capacity(story).doubted());
    Capacity doubted = capacity(story);
    assertEquals(doubted, doubted.found(story.at, heavyG));
    assertEquals(doubted, doubted.ranThrough(story.at, heavyG));
    story.with("A1", 396.0).wait(TICK).look();
    story.run(Duration.ofMinutes(30));
    assertTrue(capacity(story).doubted(), "tipped out, but not weighed");
    assertEquals("done", story.wait(TICK).look(DRAINED.formatted("e")).receipts().get(0).outcome());
    assertFalse(capacity(story).doubted());
    assertEquals("cleared", asked(story).get(1).state());
  }

  @Test
  void capacityThatWasLearnedFarTooLowIsFoundOutWithinTheNight() {
    Story story = weighedAt(330.0);
    story.wait(TICK).with("A1", 401.0).run(Duration.ofHours(7));
    assertTrue(capacity(story).doubted());
    assertEquals("done", story.wait(TICK).look(SURE.formatted("e")).receipts().get(0).outcome());
    assertEquals(401.0, capacity(story).massG(), 0.1);
    assertEquals(0.0, capacity(story).growthG(), 0.3, "a cutting does not gain 71 g in a night");
  }

  @Test
  void waterThatStillDrainsAndWhatDrainsAwayIsNoContradiction() {
    Story story = weighedAt(400.0);
    double wetG = wetLineG(story);
    story.wait(TICK).with("A1", wetG + 20.0).run(Duration.ofHours(4));
    story.with("A1", wetG - 5.0).run(Duration.ofHours(3));
    assertFalse(capacity(story).doubted(), "it has drained");
    story.with("A1", wetG + 10.0).run(Duration.ofHours(4));
    story.with("A1", wetG + 25.0).run(Duration.ofHours(4));
    assertFalse(capacity(story).doubted(), "watered anew, the six hours begin anew");
    story.run(Duration.ofHours(3));
    assertTrue(capacity(story).doubted());
  }

  @Test
  void predictedCapacityIsNotDoubtedSinceAPlateauMayStillTeachIt() {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", 460.0);
    story.look();
    story.run(Duration.ofHours(8));
    assertFalse(capacity(story).doubted());
    assertEquals(List.of(), asked(story));
  }

  @Test
  void drainedWeighingIsAskedForAfterFourWeeksAndNotOnAFreshBench() {
    Story story = Story.from("2027-02-01T18:00:00Z").with("A1", 400.0).with("A2", 238.0);
    story.look(DRAINED.formatted("d"));
    for (int day = 1; day <= 28; day++) {
      story.wait(Duration.ofDays(1)).look();
      assertEquals(List.of(), asked(story), "on day " + day);
    }
    story.wait(Duration.ofDays(1)).look();
    assertEquals(List.of("A1", "A2"), asked(story).stream().map(AlertNotice::cup).toList());
    story.wait(TICK).look(DRAINED.formatted("e"));
    AlertNotice ended = asked(story).get(2);
    assertEquals("A1 cleared", ended.cup() + " " + ended.state());
  }

  @Test
  void fullCupByTwoShortPassesTeachesAPlateauButNotOverAWeighing() {
    Capacity predicted =
        Story.from("2027-02-14T08:00:00Z").state.cups().get("A1").weight().estimate().capacity();
    Story story = weighedAt(400.0);
    Capacity shown = predicted.ranThrough(story.at, 380.0);
    assertEquals(Teacher.PLATEAU, shown.by());
    assertEquals(380.0, shown.massG());
    assertEquals(capacity(story), capacity(story).ranThrough(story.at, 380.0));
  }

  @Test
  void weighedCupThatTakesNoMoreFarBelowItsCapacityIsAskedToBeWeighedAgain() {
    Story story = Story.from("2027-02-14T08:30:00Z").with("A1", 420.0);
    story.look(DRAINED.formatted("d"));
    story.wait(Duration.ofHours(24)).with("A1", 350.0);
    story.look();
    story.run(Duration.ofMinutes(30));
    story.arrives.put("A1", 0.0);
    story.look("{\"id\":\"w\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":60,\"strength\":0}");
    story.run(Duration.ofHours(2));
    assertFalse(story.raised("dose-short"), "within a fifth of what was foretold it is full");
    assertEquals(420.0, capacity(story).massG(), 1e-9);
    assertTrue(capacity(story).doubted());
    assertEquals(1, asked(story).size());
  }

  @Test
  void labelIsCountedOnTheWaterThatTheCupWasFoundToHold() {
    Story story = weighedAt(381.872);
    story
        .wait(TICK)
        .look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":60,\"strength\":0.5}");
    double availableMl = 271.754 - 20.0;
    assertEquals(
        30.0 / availableMl, story.wait(TICK).look().cups().get("A1").fed(), 1e-3, "20 mL less");
  }

  /** What is in doubt is told each day; what is merely old, once a week. */
  @Test
  void doubtIsToldDailyAndAgeWeekly() {
    Story story = weighedAt(400.0);
    story.wait(TICK).with("A1", wetLineG(story) + 15.0).run(Duration.ofDays(3));
    assertTrue(asked(story).size() >= 3, () -> "told " + asked(story).size() + " times");
    assertEquals(Duration.ofDays(1), AlertCode.WEIGH_DRAINED.every(1));
    assertEquals(Duration.ofDays(7), AlertCode.WEIGH_DRAINED.every(0));
    assertEquals(Duration.ofDays(1), AlertCode.NEAR_DRY.every(0));
    assertEquals(Duration.ofHours(1), AlertCode.LEAK.every(1));
  }
}
