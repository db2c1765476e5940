package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.RootsSeen;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Roots are looked for when they can be there: blackcurrants have them after 14 to 28 days at 20
 * °C, above a base of 4 °C.
 */
class RootingStoryTest {
  private static final String START = "2027-02-14T00:00:00Z";

  /** A2 of the example bench holds that plant, struck on that day. */
  private static Story of(String plant, String struck) {
    String cup = "A2: {vessel: short, mix: coir-perlite, plant: mulberry,     struck: 2026-12-02";
    assertTrue(Story.BENCH.contains(cup));
    String yaml =
        Story.BENCH.replace(
            cup,
            "A2: {vessel: short, mix: coir-perlite, plant: %s, struck: %s"
                .formatted(plant, struck));
    return new Story(yaml, START, Tick.Rounds.ONE_A_TICK).with("A2", 190.0);
  }

  private static Story freshAt(double rootC) {
    Story story = of("blackcurrant", "2027-02-14");
    story.rootC = rootC;
    story.look();
    return story;
  }

  private static void days(Story story, int days) {
    for (int hour = 0; hour < 24 * days; hour++) {
      story.wait(Duration.ofHours(1)).look();
    }
  }

  private static List<String> told(Story story) {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals("look-at-roots"))
        .map(AlertNotice::state)
        .toList();
  }

  private static String lastWords(Story story) {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals("look-at-roots"))
        .reduce((first, second) -> second)
        .orElseThrow()
        .whatToDo();
  }

  @Test
  void theLookIsAskedForOnTheDayThatRootsCanBeThere() {
    Story story = freshAt(20.0);
    days(story, 13);
    assertEquals(List.of(), told(story));
    days(story, 1);
    assertEquals(List.of("raised"), told(story));
    assertTrue(lastWords(story).contains("blackcurrant can have roots by now"), lastWords(story));
  }

  private static CupStatus.Rooting foretold(Story story) {
    return story.tick.standing(story.state).statuses().stream()
        .filter(cup -> cup.cup().equals("A2"))
        .findFirst()
        .orElseThrow()
        .rooting();
  }

  /** By its kind 15.1, 19.8 and 25.9 days from 14 February on (RootingForecastTest). */
  @Test
  void theDayOfRootsIsForetoldAndMovesWithWarmthAndWithWhatAPersonSaw() {
    Story story = freshAt(20.0);
    CupStatus.LikelyDay day = foretold(story).white();
    assertEquals("2027-03-01", day.from().toString());
    assertEquals("2027-03-05", day.likely().toString());
    assertEquals("2027-03-11", day.to().toString());
    story.rootC = 12.0;
    days(story, 14);
    // 7 days of 19.8 are over; the pace is 0.5 and e to the -14/3 of the half that was more: 0.505.
    assertEquals("2027-03-25", foretold(story).white().likely().toString());
    story
        .wait(Duration.ofHours(1))
        .look("{\"id\":\"w\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"white\"}");
    assertNull(foretold(story).white());
    // 12.1 days more at that pace are 24.
    assertEquals("2027-03-24", foretold(story).toughened().likely().toString());
    story
        .wait(Duration.ofHours(1))
        .look("{\"id\":\"t\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"toughened\"}");
    assertNull(foretold(story));
  }

  private static List<RootsSeen> says(Story story, String stage) {
    BenchState before = story.state;
    story
        .wait(Duration.ofHours(1))
        .look(
            "{\"id\":\"%1$s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"%1$s\"}"
                .formatted(stage));
    return story.tick.rootsSeen(before, story.state);
  }

  @Test
  void whatAPersonSawIsHeldBesideTheDayThatWasForetoldBefore() {
    Story story = freshAt(20.0);
    days(story, 15);
    CupStatus.Rooting foretold = foretold(story);
    LocalDate day = LocalDate.of(2027, 3, 1);
    assertEquals(
        List.of(new RootsSeen("A2", RootStage.WHITE, day, foretold.white())), says(story, "white"));
    CupStatus.LikelyDay toughened = foretold(story).toughened();
    assertEquals(List.of(), says(story, "struck"), "taken back");
    Story atOnce = freshAt(20.0);
    days(atOnce, 15);
    assertEquals(
        List.of(new RootsSeen("A2", RootStage.CIRCLING, day, foretold.toughened())),
        says(atOnce, "circling"));
    assertTrue(
        toughened.likely().isBefore(foretold.toughened().likely()), "white roots are sooner");
    Story unknown = of("mystery", "2027-02-14");
    unknown.look();
    assertEquals(List.of(), says(unknown, "white"));
  }

  @Test
  void adviceTellsTheSameDaysAsTheStatus() {
    Story story = freshAt(20.0);
    Advice told = story.wait(Duration.ofHours(1)).look();
    assertEquals("2027-03-05", told.cups().get("A2").rooting().white().likely().toString());
    assertEquals(foretold(story), told.cups().get("A2").rooting());
  }

  @Test
  void nothingIsForetoldOfAPlantThatNobodyKnowsNorInTheCold() {
    Story unknown = of("mystery", "2027-02-14");
    unknown.look();
    assertNull(foretold(unknown));
    Story cold = freshAt(3.0);
    days(cold, 10);
    assertNull(foretold(cold));
  }

  /** 12 °C is half as far above the base. */
  @Test
  void inTheCoolItTakesTwiceAsLong() {
    Story story = freshAt(12.0);
    days(story, 27);
    assertEquals(List.of(), told(story));
    days(story, 1);
    assertEquals(List.of("raised"), told(story));
  }

  @Test
  void whereNobodyTellsOfTheWarmthADayIsADay() {
    Story story = freshAt(Double.NaN);
    days(story, 13);
    assertEquals(List.of(), told(story));
    days(story, 1);
    assertEquals(List.of("raised"), told(story));
  }

  @Test
  void oncePastTheLateEndTheBarkIsAskedFor() {
    Story story = freshAt(20.0);
    days(story, 27);
    assertEquals(List.of("raised"), told(story), "told once");
    days(story, 1);
    assertEquals(List.of("raised", "raised"), told(story), "and again when it is late");
    assertTrue(lastWords(story).startsWith("No roots by now"), lastWords(story));
    assertTrue(lastWords(story).contains("scratch the bark"), lastWords(story));
  }

  @Test
  void whoLookedAndSawNoneIsAskedAgainAWeekLater() {
    Story story = freshAt(20.0);
    days(story, 14);
    story
        .wait(Duration.ofMinutes(5))
        .look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"struck\"}");
    assertEquals(List.of("raised", "cleared"), told(story));
    days(story, 6);
    assertEquals(List.of("raised", "cleared"), told(story));
    days(story, 1);
    assertEquals(List.of("raised", "cleared", "raised"), told(story));
  }

  @Test
  void whoSawRootsIsNotAskedAgain() {
    Story story = freshAt(20.0);
    days(story, 14);
    story
        .wait(Duration.ofMinutes(5))
        .look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"white\"}");
    days(story, 8);
    assertEquals(List.of("raised", "cleared"), told(story));
  }

  /** Whoever sets a bench up says of each cup what its roots are. */
  @Test
  void aCuttingThatIsOldWhenFirstSeenIsAskedForAWeekLater() {
    Story story = of("blackcurrant", "2027-01-05");
    story.look();
    days(story, 6);
    assertEquals(List.of(), told(story));
    days(story, 1);
    assertEquals(List.of("raised"), told(story));
    assertTrue(lastWords(story).startsWith("No roots by now"), lastWords(story));
  }

  @Test
  void ofAPlantThatNobodyKnowsNothingIsExpected() {
    Story story = of("dragon tree", "2027-01-05");
    story.look();
    days(story, 20);
    assertEquals(List.of(), told(story));
  }

  @Test
  void itsAgeIsReckonedFromTheDayThatItWasStruck() {
    Story story = of("blackcurrant", "2027-02-10");
    story.look();
    assertEquals(4.0, story.state.cups().get("A2").plant().rooting().days());
    assertEquals(null, story.state.cups().get("A1").plant().rooting(), "A1 has roots");
  }
}
