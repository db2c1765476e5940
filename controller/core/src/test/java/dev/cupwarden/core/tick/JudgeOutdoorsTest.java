package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.OpenAlert;
import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A1 is toughened and A2 struck; A1 is carried out at 8:05, and out for an hour at 9:05. */
class JudgeOutdoorsTest {
  private static final Set<String> TOLD = Set.of("keep-in", "frost");
  private static final String MILD_THEN_COLD =
      "{\"id\":\"w\",\"kind\":\"weather\",\"day\":\"2027-02-15\",\"least_c\":1,\"most_c\":9}";

  private static Story bench() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0).with("A2", 350.0);
    story.rateGPerH.put("A1", 0.3);
    story.rateGPerH.put("A2", 0.3);
    story.airC = 18.0;
    story.look();
    return story;
  }

  private static void carryOut(Story story, String cup) {
    story.massG.remove(cup);
    story
        .wait(Duration.ofMinutes(5))
        .look(
            "{\"id\":\"a-%s-%s\",\"kind\":\"away\",\"cup\":\"%s\"}".formatted(cup, story.at, cup));
  }

  private static void bringIn(Story story, String cup) {
    story.massG.put(cup, 345.0);
    story
        .wait(Duration.ofMinutes(5))
        .look(
            "{\"id\":\"b-%s-%s\",\"kind\":\"back\",\"cup\":\"%s\"}".formatted(cup, story.at, cup));
  }

  private static List<String> open(Story story) {
    return story.state.alerts().values().stream()
        .map(OpenAlert::code)
        .filter(TOLD::contains)
        .toList();
  }

  private static AlertNotice last(Story story, String code) {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals(code))
        .reduce((first, second) -> second)
        .orElseThrow();
  }

  private static int days(Story story) {
    return story
        .state
        .cups()
        .get("A1")
        .plant()
        .season()
        .outings()
        .days(story.at, java.time.ZoneOffset.UTC);
  }

  @Test
  void withoutAWordOrAThermometerNothingIsTold() {
    Story story = bench();
    carryOut(story, "A1");
    story.run(Duration.ofHours(4));
    assertEquals(List.of(), open(story));
    assertEquals(1, days(story));
  }

  @Test
  void aColdDayIsToldAtItsMidnightAndIsOverAtTheNext() {
    Story story = bench();
    carryOut(story, "A1");
    story.run(Duration.ofHours(2));
    bringIn(story, "A1");
    story.wait(Duration.ofMinutes(5)).look(MILD_THEN_COLD);
    story.run(Duration.ofHours(13).plusMinutes(40));
    assertEquals("2027-02-14T23:55:00Z", story.at.toString());
    assertEquals(List.of(), open(story), "today nobody told of");
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("keep-in"), open(story));
    assertEquals(1.0, last(story, "keep-in").value());
    assertEquals(7.2222, last(story, "keep-in").threshold());
    assertEquals(
        "Keep in today, and bring in what is out (A1): least 1.0 °C, and leaves that grew indoors"
            + " harden from 7.2 °C on (45 °F). Such a day does not count.",
        last(story, "keep-in").whatToDo());
    story.run(Duration.ofHours(23).plusMinutes(55));
    assertEquals(List.of("keep-in"), open(story));
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of(), open(story), "old weather says nothing");
    assertEquals(1, days(story));
  }

  @Test
  void aColdDayDoesNotCountThoughTheCupIsOut() {
    Story story = bench();
    story.wait(Duration.ofMinutes(5)).look(MILD_THEN_COLD.replace("15", "14"));
    assertEquals(List.of(), open(story), "no cup is being hardened off");
    carryOut(story, "A1");
    story.run(Duration.ofMinutes(55));
    assertEquals(List.of(), open(story));
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("keep-in"), open(story), "out for an hour");
    story.run(Duration.ofHours(5));
    assertEquals(0, days(story));
  }

  @Test
  void theThermometerSpeaksOnlyOfWhatIsOutAndEndsADegreeAbove() {
    Story story = bench();
    story.outdoorC = 5.0;
    story.run(Duration.ofHours(2));
    assertEquals(List.of(), open(story), "each night is cold");
    carryOut(story, "A2");
    story.run(Duration.ofHours(2));
    assertEquals(List.of(), open(story), "what has no leaves to harden is out for another reason");
    story.outdoorC = 8.3;
    carryOut(story, "A1");
    story.run(Duration.ofHours(2));
    assertEquals(List.of(), open(story));
    story.outdoorC = 7.2;
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("keep-in"), open(story));
    story.outdoorC = 8.2;
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("keep-in"), open(story));
    story.outdoorC = 8.3;
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of(), open(story));
    assertEquals(1, days(story), "two hours of it were mild enough");
  }

  /** Heard last at 9:35, more than an hour old at 10:40. */
  @Test
  void aThermometerThatFellSilentSaysNothingAfterAnHour() {
    Story story = bench();
    carryOut(story, "A1");
    story.outdoorC = 5.0;
    story.run(Duration.ofMinutes(90));
    assertEquals(List.of("keep-in"), open(story));
    story.outdoorC = Double.NaN;
    story.run(Duration.ofMinutes(60));
    assertEquals(List.of("keep-in"), open(story));
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of(), open(story));
    assertFalse(story.raised("sensor-dead"));
    story.run(Duration.ofHours(5));
    assertTrue(story.raised("sensor-dead"));
  }

  @Test
  void iceOutdoorsIsToldAsFrostOfAnyCupThatIsOutAndNotTwice() {
    Story story = bench();
    carryOut(story, "A2");
    carryOut(story, "A1");
    story.outdoorC = 0.4;
    story.run(Duration.ofMinutes(50));
    assertEquals(List.of(), open(story));
    story.run(Duration.ofMinutes(10));
    assertEquals(List.of("frost"), open(story));
    assertEquals("It freezes outdoors: bring in what is out: A2.", last(story, "frost").whatToDo());
    story.run(Duration.ofMinutes(15));
    assertEquals(List.of("frost"), open(story));
    assertEquals(
        "It freezes outdoors: bring in what is out: A1, A2.", last(story, "frost").whatToDo());
    story.outdoorC = 1.4;
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("frost", "keep-in"), open(story), "within the degree of its end");
    story.outdoorC = 1.6;
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("keep-in"), open(story));
  }

  @Test
  void frostOfTheRoomIsToldInItsOwnWords() {
    Story story = bench();
    carryOut(story, "A1");
    story.outdoorC = -3.0;
    story.airC = 0.2;
    story.run(Duration.ofHours(2));
    assertEquals(List.of("frost"), open(story));
    assertTrue(last(story, "frost").whatToDo().startsWith("Warm the room"));
  }
}
