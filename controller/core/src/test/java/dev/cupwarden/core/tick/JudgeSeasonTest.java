package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.alerts.OpenAlert;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** One card a cup at a time. */
class JudgeSeasonTest {
  private static final Set<String> CARDS = Set.of("stop-heat", "harden-off", "little-light");

  private static List<String> open(Story story) {
    return story.state.alerts().values().stream()
        .map(OpenAlert::code)
        .filter(CARDS::contains)
        .toList();
  }

  /** Heated from the first look on, and in little light from the second midnight on. */
  @Test
  void theOneThatStandsStaysAndTheNextComesWhenItIsOver() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
    story.rateGPerH.put("A1", 0.3);
    story.lightUmol = 40.0;
    story.airC = 16.0;
    story.rootC = 21.0;
    story.look();
    story.run(Duration.ofHours(41));
    assertEquals(List.of("little-light"), open(story));
    story.run(Duration.ofHours(36));
    assertEquals(List.of("little-light"), open(story), "three days of heat wait");
    story.lightUmol = 90.0;
    story.run(Duration.ofHours(48));
    assertEquals(List.of("stop-heat"), open(story), "7.8 mol a day are enough");
  }

  /** A broken wire for an hour is no day out; of the second such day it may be one. */
  @Test
  void aScaleThatShowsNoCupIsBelievedOnTheSecondDay() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
    story.rateGPerH.put("A1", 0.3);
    story.look();
    story.run(Duration.ofHours(1));
    out(story);
    assertEquals(List.of(), open(story));
    story.run(Duration.ofHours(22));
    out(story);
    assertEquals(List.of("harden-off"), open(story));
  }

  private static void out(Story story) {
    double rate = story.rateGPerH.remove("A1");
    double leftG = story.massG.put("A1", 0.0);
    story.run(Duration.ofHours(2));
    story.rateGPerH.put("A1", rate);
    story.massG.put("A1", leftG);
    story.run(Duration.ofMinutes(10));
  }

  /** Out by a person's word and in little light at once: the row of the table decides. */
  @Test
  void ofTwoAtOnceTheMorePressingIsShown() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
    story.rateGPerH.put("A1", 0.3);
    story.lightUmol = 40.0;
    story.look();
    // The first whole day is over at midnight; an hour out is over in the same look.
    story.run(Duration.ofHours(38).plusMinutes(55));
    story.massG.remove("A1");
    story.wait(Duration.ofMinutes(5)).look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}");
    story.run(Duration.ofMinutes(55));
    assertEquals(List.of(), open(story));
    story.run(Duration.ofMinutes(5));
    assertEquals(List.of("harden-off"), open(story));
  }
}
