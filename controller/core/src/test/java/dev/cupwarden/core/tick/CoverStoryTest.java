package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Domes and bags, and what a person forgets to say of them. */
class CoverStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final String COVER = "{\"id\":\"c\",\"kind\":\"cover\",\"cup\":\"A1\"}";
  private static final String UNCOVER = "{\"id\":\"u\",\"kind\":\"uncover\",\"cup\":\"A1\"}";

  /** For a day at 0.5 g/h. */
  private static Story dried() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 380.0).with("A2", 180.0);
    story.rateGPerH.put("A1", 0.5);
    story.rateGPerH.put("A2", 0.2);
    story.look();
    story.run(Duration.ofHours(24));
    return story;
  }

  private static void add(Story story, double g) {
    story.massG.computeIfPresent("A1", (cup, was) -> was + g);
  }

  private static double depletion(Story story) {
    return story.look().cups().get("A1").depletion();
  }

  private static long told(Story story, String code) {
    return story.alerts.stream().filter(a -> a.code().equals(code) && !a.again()).count();
  }

  @Test
  void weightOfACoverIsNoWater() {
    Story story = dried();
    double before = depletion(story);
    story.wait(TICK).look(COVER);
    add(story, 15.0);
    story.rateGPerH.put("A1", 0.02);
    story.run(Duration.ofHours(2));
    assertEquals(before, depletion(story), 0.003, "0.5 g at most of 330 mL");
    assertEquals(List.of(), story.state.cups().get("A1").doses().given());
    story.wait(TICK).look(UNCOVER);
    add(story, -15.0);
    story.run(Duration.ofHours(2));
    assertEquals(before, depletion(story), 0.004);
    assertTrue(story.look().cups().get("A1").trusted());
  }

  /** Seen as somebody's can, and counted so, until it is said what it was. */
  @Test
  void weightThatCameBeforeTheWordIsTakenBack() {
    Story story = dried();
    double before = depletion(story);
    add(story, 15.0);
    story.run(Duration.ofMinutes(10));
    assertEquals(1, story.state.cups().get("A1").doses().given().size());
    story.wait(TICK).look(COVER);
    assertEquals(List.of(), story.state.cups().get("A1").doses().given());
    assertEquals(before, depletion(story), 0.003);
    assertTrue(story.look().cups().get("A1").trusted());
  }

  @Test
  void nothingIsWateredWhileAHandIsAtTheCover() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", 262.0);
    assertEquals(List.of("away"), story.look(COVER).cups().get("A1").checks());
    assertEquals(List.of(), story.passes);
    story.run(Duration.ofMinutes(10));
    assertFalse(story.passes.isEmpty());
  }

  /** Its neighbour goes on moving. */
  @Test
  void coveredCupMayStandStillForWeeks() {
    Story story = dried();
    story.wait(TICK).look(COVER);
    story.rateGPerH.put("A1", 0.0);
    story.with("A1", 372.5).run(Duration.ofDays(10));
    assertFalse(story.raised("scale-stuck"));
    assertFalse(story.raised("staying-wet"));
    assertTrue(story.look().cups().get("A1").trusted());
  }

  @Test
  void openCupThatStandsStillToTheLastDigitIsStuck() {
    Story story = dried();
    story.rateGPerH.put("A1", 0.0);
    story.with("A1", 372.5).run(Duration.ofDays(2).plusHours(1));
    assertTrue(story.raised("scale-stuck"));
  }

  /** The first look of a day after ten in the zone of the bench, which is UTC in winter. */
  @Test
  void liftingIsToldOnceADayForAnHour() {
    Story story = dried();
    story.wait(TICK).look(COVER);
    story.run(Duration.ofDays(3));
    assertEquals(6, told(story, "lift-cover"), "raised and cleared on three days");
    assertEquals(
        List.of("2027-02-15T10:00:00Z", "2027-02-16T10:00:00Z", "2027-02-17T10:00:00Z"),
        story.alerts.stream()
            .filter(a -> a.code().equals("lift-cover") && a.state().equals("raised"))
            .map(a -> a.since().toString())
            .toList());
    assertTrue(story.look().alerts().isEmpty(), "over after its hour");
  }

  @Test
  void liftedForItsHourItIsStillTheSameCup() {
    Story story = dried();
    double before = depletion(story);
    story.wait(TICK).look(COVER);
    add(story, 15.0);
    story.rateGPerH.put("A1", 0.02);
    story.run(Duration.ofHours(3));
    add(story, -15.0);
    story.run(Duration.ofMinutes(30));
    assertEquals(before, depletion(story), 0.004);
    assertTrue(story.look().cups().get("A1").trusted());
    add(story, 15.0);
    story.run(Duration.ofMinutes(30));
    assertEquals(before, depletion(story), 0.004);
  }

  @Test
  void forgottenUncoverIsToldAndTheCupIsWateredByItsWeight() {
    Story story = dried();
    story.wait(TICK).look(COVER);
    add(story, 15.0);
    story.run(Duration.ofHours(1));
    add(story, -15.0);
    story.rateGPerH.put("A1", 2.0);
    story.run(Duration.ofHours(13));
    assertTrue(
        story.alerts.stream()
            .anyMatch(a -> a.whatToDo().contains("or say uncover. It is watered")));
    story.run(Duration.ofDays(3));
    assertFalse(story.passes.isEmpty());
  }

  @Test
  void wordOfTheBenchFileCoversAllButWhoSaysOtherwise() {
    String yaml =
        Story.BENCH
            .replace("mixes:", "covered: true\nmixes:")
            .replace("cutting: 9 g}", "cutting: 9 g, covered: false}");
    Story story = new Story(yaml, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    assertTrue(story.state.cups().get("A1").presence().cover().on());
    assertFalse(story.state.cups().get("A2").presence().cover().on());
  }

  @Test
  void mouldWeatherIsToldOfOpenCupsInLeafAlone() {
    String leafless = Story.BENCH.replace("mulberry", "something leafless");
    Story story = new Story(leafless, "2027-02-14T11:00:00Z", Tick.Rounds.ONE_A_TICK);
    story.with("A1", 350.0).with("A2", 200.0);
    story.airC = 18.0;
    story.rhPct = 85.0;
    story.look();
    story.run(Duration.ofHours(7).plusMinutes(55));
    assertFalse(story.raised("mould-weather"));
    story.run(TICK);
    assertEquals(
        List.of("A1"),
        story.alerts.stream()
            .filter(a -> a.code().equals("mould-weather"))
            .map(AlertNotice::cup)
            .toList());
    story.wait(TICK).look(COVER);
    assertTrue(story.cleared("mould-weather"));
  }

  @Test
  void drierAirStartsTheHoursOfMouldAnew() {
    Story story = Story.from("2027-02-14T11:00:00Z").with("A1", 350.0);
    story.airC = 18.0;
    story.rhPct = 95.0;
    story.look();
    story.run(Duration.ofHours(7));
    story.rhPct = 84.0;
    story.run(TICK);
    story.rhPct = 95.0;
    story.run(Duration.ofHours(8));
    assertFalse(story.raised("mould-weather"));
  }
}
