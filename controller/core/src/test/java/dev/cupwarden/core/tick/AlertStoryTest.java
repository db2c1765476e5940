package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** A1 stands in a tall vessel, full at 401.872 g; A2 in a short one, full at 208 g or so. */
class AlertStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  @Test
  void singleSpikeIsDoubtedWithoutAnAlertAndAStuckOneIsTold() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
    story.look();
    story.with("A1", 5000.0);
    assertFalse(story.wait(TICK).look().cups().get("A1").trusted());
    story.with("A1", 350.0);
    story.run(Duration.ofHours(1));
    assertEquals(List.of(), told(story, "A1"));
    story.with("A1", 8388.6);
    story.run(Duration.ofMinutes(10));
    assertTrue(story.raised("scale-out-of-range"));
  }

  @Test
  void dripThatOutrunsDryingIsALeakAndAQuietCupIsNone() {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", 350.0).with("A2", 160.0);
    story.rateGPerH.put("A1", -1.0);
    story.rateGPerH.put("A2", 0.3);
    story.look();
    story.run(Duration.ofHours(5));
    assertEquals(List.of("valve-leaking"), told(story, "A1"));
    assertEquals(List.of(), told(story, "A2"));
    assertTrue(story.look().cups().get("A1").checks().contains("hardware"));
  }

  @Test
  void fullCupThatDriesSlowlyIsNotWetTooLong() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A2", 200.0);
    story.rateGPerH.put("A2", 0.15);
    story.look();
    story.run(Duration.ofHours(60));
    assertEquals(List.of(), told(story, "A2"), "3.6 g a day of some 140 mL");
  }

  /** Of 285 mL it holds 36 % air: it may stand still for as long as it likes. */
  @Test
  void fullCupThatStandsStillWithAirEnoughIsNoMatter() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A2", 200.0);
    story.rateGPerH.put("A2", 0.02);
    story.look();
    story.run(Duration.ofHours(80));
    assertEquals(List.of(), told(story, "A2"));
  }

  /** 15 % air is at 424 g; from 440 g it needs 16 h at 1 g/h, and a day more is told. */
  @Test
  void cupWithLittleAirIsToldOfADayAfterItShouldHaveDried() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 402.0);
    story.look("{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\"}");
    littleAir(story);
    assertEquals(List.of(), told(story, "A1"));
    story.run(Duration.ofHours(5));
    assertEquals(List.of("staying-wet"), told(story, "A1"));
  }

  /** From 440 g it needs 16 h at 1 g/h; it has dried at 1 g/h for days. */
  private static void littleAir(Story story) {
    story.with("A1", 430.0);
    story.rateGPerH.put("A1", 1.0);
    story.run(Duration.ofHours(62));
    story.rateGPerH.put("A1", 0.02);
    story.with("A1", 440.0).run(Duration.ofHours(38));
  }

  /** Its air is a guess, so it is asked for, daily; from two days on nothing is watered. */
  @Test
  void cupThatWasNeverWeighedDrainedAndMayLackAirIsAskedToBeWeighed() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 402.0);
    story.look();
    littleAir(story);
    assertEquals(List.of(), told(story, "A1"));
    story.run(Duration.ofHours(5));
    assertEquals(List.of("weigh-drained"), told(story, "A1"));
    assertEquals(
        "It may stand too wet: by its weight it has held little air for a day longer than it needs"
            + " to dry, but what it weighs drained nobody has learned. Tip out what stands under"
            + " it, soak it, let it drain for an hour, then weigh it drained, to know.",
        story.alerts.get(story.alerts.size() - 1).whatToDo());
    var later = story.run(Duration.ofHours(24));
    AlertNotice worse = story.alerts.get(story.alerts.size() - 1);
    assertEquals("weigh-drained raised 2", of(worse));
    assertTrue(worse.whatToDo().contains("Nothing is watered until it dries"), worse.whatToDo());
    assertTrue(later.cups().get("A1").checks().contains("wet-too-long"));
    assertFalse(story.raised("staying-wet") || story.raised("wet-too-long"));
    story.with("A1", 401.0);
    story.wait(TICK).look("{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\",\"sure\":true}");
    story.run(Duration.ofMinutes(20));
    assertTrue(story.cleared("weigh-drained"));
  }

  private static String of(AlertNotice notice) {
    return "%s %s %d".formatted(notice.code(), notice.state(), notice.severity());
  }

  /** Past its wet line by what was foretold of it: told in words that are true in any case. */
  @Test
  void cupPastAWetLineThatWasOnlyForetoldIsToldAsOneThatMayBeWet() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A2", 255.0);
    story.rateGPerH.put("A2", 0.02);
    story.look();
    story.run(Duration.ofHours(49));
    assertEquals(List.of("staying-wet", "staying-wet", "wet-too-long"), told(story, "A2"));
    for (AlertNotice notice : story.alerts) {
      if (notice.code().contains("wet") && notice.state().equals("raised")) {
        assertTrue(notice.whatToDo().startsWith("By its weight "), notice.whatToDo());
        assertTrue(notice.whatToDo().contains("weigh it drained, to know"), notice.whatToDo());
      }
    }
  }

  @Test
  void shortGapOfACupThatIsNotDueSoonIsNoMatterForAPerson() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 380.0);
    story.rateGPerH.put("A1", 0.5);
    story.look();
    story.run(Duration.ofHours(6));
    story.massG.remove("A1");
    var silent = story.run(Duration.ofMinutes(85));
    assertTrue(silent.cups().get("A1").checks().contains("untrusted"));
    assertEquals(List.of(), told(story, "A1"));
    story.run(Duration.ofMinutes(10));
    assertEquals(List.of("scale-silent"), told(story, "A1"));
  }

  @Test
  void gapThatIsOverBeforeAnHourAndAHalfIsNeitherToldNorCleared() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 380.0);
    story.look();
    story.massG.remove("A1");
    story.run(Duration.ofMinutes(60));
    story.with("A1", 380.0).run(Duration.ofMinutes(60));
    assertEquals(List.of(), told(story, "A1"));
  }

  @Test
  void gapOfACupThatIsDueWithinSixHoursIsToldAtOnce() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 274.0);
    story.rateGPerH.put("A1", 1.0);
    story.look();
    story.run(Duration.ofHours(3));
    story.massG.remove("A1");
    story.run(Duration.ofMinutes(15));
    assertEquals(List.of("scale-silent"), told(story, "A1"));
  }

  @Test
  void forgottenCupIsToldOfAfterSixHoursAndOneThatWasSaidToBeAwayIsNot() {
    Story forgotten = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
    forgotten.look();
    forgotten.with("A1", 0.0);
    forgotten.run(Duration.ofHours(7));
    assertTrue(forgotten.raised("cup-away"));
    Story said = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
    said.look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}");
    said.with("A1", 0.0);
    said.run(Duration.ofHours(12));
    assertFalse(said.raised("cup-away"));
    said.run(Duration.ofHours(3));
    assertTrue(said.raised("cup-away"));
  }

  @Test
  void tallCupInAShortOnesPlaceIsASwapThoughItsWeightIsOutOfRange() {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", 390.0).with("A2", 180.0);
    story.look();
    story.run(Duration.ofHours(1));
    story.with("A1", 180.0).with("A2", 390.0);
    story.run(Duration.ofMinutes(20));
    assertEquals(2, story.alerts.stream().filter(a -> a.code().equals("cups-swapped")).count());
  }

  @Test
  void valveThatRunsFastIsALeakThoughTheScaleSeemsRestless() {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", 300.0).with("A2", 210.0);
    story.rateGPerH.put("A2", 0.3);
    story.run(Duration.ofHours(1));
    story.rateGPerH.put("A1", -84.0);
    story.run(Duration.ofMinutes(30));
    assertTrue(story.raised("valve-leaking"), story.alerts.toString());
  }

  @Test
  void valveThatLeaksTwentyMillilitresAnHourIsToldWithinHalfAnHour() {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", 300.0).with("A2", 150.0);
    story.run(Duration.ofHours(1));
    story.rateGPerH.put("A2", -20.0);
    story.run(Duration.ofMinutes(30));
    assertTrue(story.raised("valve-leaking"), story.alerts.toString());
  }

  @Test
  void passGivenToACupWhoseScaleFellSilentIsNoLeakWhenItSpeaksAgain() {
    Story story = Story.from("2027-02-14T05:00:00Z").with("A1", 220.0).with("A2", 205.0);
    story.rateGPerH.put("A1", 0.5);
    for (int i = 0; i < 60 && story.passes.isEmpty(); i++) {
      story.wait(TICK).look();
    }
    assertEquals("A1", story.passes.get(0).cup());
    double withPassG = story.massG.remove("A1");
    story.wait(TICK).look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\"}");
    story.run(Duration.ofHours(2));
    story.with("A1", withPassG).run(Duration.ofHours(2));
    assertEquals(1, story.passes.size());
    assertFalse(story.raised("valve-leaking"), story.alerts.toString());
  }

  @Test
  void fullCupThatGetsOthersPassesStopsThePumpThoughItWeighsMoreThanItCan() {
    Story story = Story.from("2027-02-14T07:00:00Z").with("A1", 200.0).with("A2", 205.0);
    story.run(Duration.ofMinutes(55));
    for (int i = 0; i < 24 && story.state.pump().latch() == null; i++) {
      if (story.wait(TICK).look().passes().size() > 0) {
        story.massG.merge("A2", 12.0, Double::sum);
      }
    }
    assertEquals(AlertCode.VALVE_LEAKING, story.state.pump().latch().code());
    assertEquals(3, story.passes.size(), "three rises are no accident");
  }

  @Test
  void switchOfFeedIsAnnouncedAWeekAheadWithWhatToMix() {
    String yaml =
        Story.BENCH
            .replace(
                "    - {from: 2026-11-01, feed: leafy}\n",
                "    - {from: 2026-11-01, feed: leafy}\n    - {from: 2027-04-15, feed: fruity}\n")
            .replace(
                "water: {ec: 0.30}",
                """
                  fruity:
                    analysis: {N: 10, P2O5: 10, K2O: 30}
                    label: {amount: 2 tsp, per: 1 US gal, every: 14 d}
                    spoon: 5.0 g
                    ec: 1.2
                water: {ec: 0.30}\
                """);
    Story story = new Story(yaml, "2027-04-07T09:00:00Z", Tick.Rounds.ONE_A_TICK);
    story.look();
    assertEquals(List.of(), told(story, null), "eight days ahead");
    story.wait(Duration.ofDays(1)).look();
    assertEquals(List.of("feed-change"), told(story, null));
    AlertNotice ahead = story.alerts.get(story.alerts.size() - 1);
    assertEquals("raised", ahead.state());
    assertNull(ahead.cup());
    assertEquals(7.0, ahead.value());
    // 2 tsp of 5 g in a US gallon (3.785 L) are 2.642 g/L; half of it in 4 L are 5.3 g.
    assertEquals(
        "From 2027-04-15 on the plan wants fruity: use up what is in the tank, then mix 5.3 g of it"
            + " into 4.0 L (strength 0.5).",
        ahead.whatToDo());
    story.wait(Duration.ofDays(7)).look();
    assertTrue(story.raised("tank-unsuited"));
    assertTrue(story.cleared("feed-change"));
  }

  @Test
  void lowTanksAreNamedAndMissingPlainWaterIsNoMatterOfMixing() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A2", 130.0);
    story.tankMl.put("plain", 0.0);
    story.tankMl.put("feed", 4_000.0);
    story.look();
    assertEquals(
        List.of(
            "The tank “plain” is empty: fill it, and say so; until then cups that need plain water"
                + " get none.",
            "Fill the tank “plain”, and say so."),
        story.alerts.stream()
            .filter(alert -> alert.code().startsWith("tank-"))
            .map(AlertNotice::whatToDo)
            .toList());
    assertEquals(0.0, story.givenMl("A2"), "a struck cup takes no feed");
  }

  /** Codes that were told of that cup, or of the whole bench, in order of time. */
  private static List<String> told(Story story, String cup) {
    return story.alerts.stream()
        .filter(alert -> Objects.equals(alert.cup(), cup))
        .map(AlertNotice::code)
        .toList();
  }
}
