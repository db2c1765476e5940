package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Receipt;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** A1 is toughened in a tall vessel, full at 401.872 g; A2 struck in a short one, 208 g or so. */
class NoCupDriesUntoldTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  @Test
  void plainTankThatRunsEmptyIsToldThoughTheFeedsHasBeenLowForLong() {
    Story story = Story.from("2027-01-14T09:00:00Z").with("A2", 190.0);
    story.rateGPerH.put("A2", 0.6);
    story.tankMl.put("feed", 300.0);
    story.tankMl.put("plain", 12_000.0);
    story.run(Duration.ofDays(2));
    for (double leftMl = 12_000.0; leftMl > 0.0; leftMl -= 500.0) {
      story.tankMl.put("plain", leftMl);
      story.run(Duration.ofHours(1));
    }
    story.tankMl.put("plain", 0.0);
    story.run(Duration.ofDays(10));
    assertEquals(
        List.of("feed", "plain"),
        raised(story, "tank-low", null).stream().map(AlertNotice::tank).distinct().toList());
    AlertNotice empty = raised(story, "tank-empty", null).get(0);
    assertEquals("plain", empty.tank());
    assertTrue(empty.whatToDo().startsWith("The tank “plain” is empty"), empty.whatToDo());
    Advice advice = story.wait(TICK).look();
    assertEquals("hardware", advice.cups().get("A2").checks().get(0));
    CupStatus.Told told = story.tick.standing(story.state).statuses().get(1).reasons().get(0);
    assertEquals("tank-empty", told.detail());
    assertEquals("mL", told.unit());
    assertFalse(raised(story, "near-dry", "A2").isEmpty());
    assertEquals(0.0, story.givenMl("A2"), "a struck cup takes no feed");
    story.tankMl.put("plain", 12_000.0);
    story.wait(TICK).look();
    assertTrue(story.cleared("tank-empty"));
    assertTrue(story.cleared("tank-low"));
  }

  @Test
  void emptyFeedTankStopsNothingWhilePlainWaterIsLeft() {
    Story story = Story.from("2027-01-14T09:00:00Z").with("A1", 250.0);
    story.tankMl.put("feed", 0.0);
    story.tankMl.put("plain", 12_000.0);
    story.run(Duration.ofHours(1));
    assertEquals("feed", raised(story, "tank-empty", null).get(0).tank());
    assertTrue(story.givenMl("A1") > 0.0);
  }

  @Test
  void lastOfTheTankIsGivenAsASmallerPass() {
    Story story = Story.from("2027-01-14T09:00:00Z").with("A2", 130.0);
    story.tankMl.put("plain", 12.0);
    story.tankMl.put("feed", 4_000.0);
    Advice advice = story.look();
    assertEquals(12.0, advice.passes().get(0).plainMl());
    story.tankMl.put("plain", 4.9);
    assertEquals(
        "hardware", story.wait(Duration.ofMinutes(15)).look().cups().get("A2").checks().get(0));
  }

  @Test
  void pastItsDryLineForDaysIsSaidInItsOwnWordsAndRisesInSeverity() {
    Story story = dryAndHeld();
    story.run(Duration.ofDays(4));
    List<AlertNotice> told = raised(story, "near-dry", "A2");
    Instant since = told.get(0).since();
    assertTrue(told.stream().allMatch(notice -> notice.since().equals(since)));
    assertEquals(
        List.of(0, 1, 2, 3, 4, 5), told.stream().map(AlertNotice::severity).distinct().toList());
    AlertNotice third = told.stream().filter(one -> one.severity() == 5).findFirst().orElseThrow();
    assertTrue(third.whatToDo().startsWith("Past its dry line for 3 days."), third.whatToDo());
    assertTrue(told.size() <= 10, "no siren: " + told.size());
  }

  @Test
  void cupThatIsRescuedIsSaidToBeWatered() {
    Story story = Story.from("2027-01-14T09:00:00Z").with("A2", 97.0);
    story.rateGPerH.put("A2", 0.2);
    assertEquals("rescue", story.look().passes().get(0).why());
    AlertNotice told = raised(story, "near-dry", "A2").get(0);
    assertEquals(
        "Past its dry line. It is being watered: look whether the water arrives.", told.whatToDo());
  }

  @Test
  void alertMissedOnFridayIsToldOnEachDayUntilItIsDone() {
    Story story = Story.from("2027-01-15T17:00:00Z").with("A1", 350.0).with("A2", 190.0);
    story.run(Duration.ofHours(1));
    story.with("A1", 0.0);
    story.run(Duration.ofDays(3));
    List<AlertNotice> told = raised(story, "cup-away", "A1");
    assertFalse(told.get(0).again());
    assertTrue(told.stream().skip(1).allMatch(AlertNotice::again));
    assertTrue(told.size() >= 3 && told.size() <= 4, "Saturday, Sunday, Monday: " + told.size());
  }

  @Test
  void cupThatNobodyWeighsIsToldByTheBoundThatOneInTwentyExceeds() {
    Story story = Story.from("2027-01-10T18:00:00Z").with("A2", 195.0);
    story.rateGPerH.put("A2", 0.3);
    story.run(Duration.ofHours(6));
    story.massG.remove("A2");
    for (int hour = 0; hour < 24 * 30 && raised(story, "near-dry", "A2").isEmpty(); hour++) {
      story.run(Duration.ofHours(1));
    }
    AlertNotice first = raised(story, "near-dry", "A2").get(0);
    Advice.CupReport cup = story.look().cups().get("A2");
    assertTrue(first.bound());
    assertTrue(first.whatToDo().contains("may be near its dry line"), first.whatToDo());
    assertTrue(first.whatToDo().contains("Weigh it"), first.whatToDo());
    assertTrue(cup.depletion() < first.threshold(), "its estimate is still above its line: " + cup);
    var status =
        story.tick.standing(story.state).statuses().stream()
            .filter(one -> one.cup().equals("A2"))
            .findFirst()
            .orElseThrow();
    double sdG = story.state.cups().get("A2").weight().reckoning().water().sdG();
    double weightSd = sdG / status.availableMl();
    assertEquals(first.value(), cup.depletion() + 1.645 * weightSd, 0.01);
    assertTrue(cup.sd() > weightSd, "its lines are in doubt, too");
  }

  @Test
  void endOfTheRationsIsToldAndThenDailyUntilItIsWeighed() {
    Story story = Story.from("2027-01-10T18:00:00Z").with("A2", 200.0);
    story.rateGPerH.put("A2", 0.5);
    story.run(Duration.ofDays(4));
    story.massG.remove("A2");
    story.run(Duration.ofDays(7));
    List<AlertNotice> told = raised(story, "blind-ration", "A2");
    AlertNotice over = told.stream().filter(one -> one.severity() == 1).findFirst().orElseThrow();
    assertTrue(over.whatToDo().contains("it gets nothing more"), over.whatToDo());
    assertTrue(told.size() >= 6, "daily: " + told.size());
  }

  @Test
  void laterIsTakenForAnOpenAlertAndRefusedOtherwise() {
    Story story = dryAndHeld();
    story.run(Duration.ofHours(8));
    assertEquals("done", later(story, "near-dry", "A2", "2027-01-20T08:00:00Z").outcome());
    int before = raised(story, "near-dry", "A2").size();
    assertTrue(before > 0);
    assertEquals(
        "alert: no near-dry of the whole bench is open; it is open of cup A2",
        later(story, "near-dry", null, "2027-01-20T08:00:00Z").why());
    assertEquals(
        "alert: no cold of the whole bench is open",
        later(story, "cold", null, "2027-01-20T08:00:00Z").why());
    assertTrue(
        later(story, "near-dry", "A2", "2027-01-28T08:00:00Z").why().contains("at most 7 days"));
    assertTrue(later(story, "near-dry", "A2", "2027-01-01T08:00:00Z").why().contains("not later"));
    assertTrue(later(story, "near-dry", "B9", "2027-01-20T08:00:00Z").why().contains("B9"));
    story.leak = true;
    story.wait(TICK).look();
    assertEquals(
        "alert: leak is not put off: it is told until it is over",
        later(story, "leak", null, "2027-01-20T08:00:00Z").why());
  }

  /** A2 passes its dry line within the day, and a hold keeps it there. */
  private static Story dryAndHeld() {
    Story story = Story.from("2027-01-14T17:00:00Z").with("A2", 100.5).with("A1", 350.0);
    story.rateGPerH.put("A2", 0.2);
    story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-14T17:00:00Z\"}");
    return story;
  }

  private static Receipt later(Story story, String alert, String cup, String until) {
    String whose = cup == null ? "" : ",\"cup\":\"" + cup + "\"";
    String id = "l" + story.at + story.state.orders().ids().size();
    return story
        .wait(TICK)
        .look(
            "{\"id\":\"%s\",\"kind\":\"later\",\"alert\":\"%s\"%s,\"until\":\"%s\"}"
                .formatted(id, alert, whose, until))
        .receipts()
        .get(0);
  }

  private static List<AlertNotice> raised(Story story, String code, String cup) {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals(code) && Objects.equals(alert.cup(), cup))
        .filter(alert -> alert.state().equals("raised"))
        .toList();
  }
}
