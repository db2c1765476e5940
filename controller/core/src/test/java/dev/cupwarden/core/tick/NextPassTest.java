package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.BenchSetup;
import dev.cupwarden.core.messages.CupStatus;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a status says of a person's dose is what the dose then gets. */
class NextPassTest {
  private static final String SMALL =
      Story.BENCH
          .replace(
              "cups:\n",
              "cups:\n  S1: {vessel: tiny, mix: coir-perlite, plant: mulberry, stage: white, cutting: 6 g}\n")
          .replace(
              "vessels:\n",
              "vessels:\n  tiny: {top: 60 mm, base: 45 mm, depth: 60 mm, empty: 5 g}\n");

  private static CupStatus status(Story story, String cup) {
    return story.tick.standing(story.state).statuses().stream()
        .filter(one -> one.cup().equals(cup))
        .findFirst()
        .orElseThrow();
  }

  private static Story settled(double grossG) {
    Story story =
        new Story(SMALL, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK).with("S1", grossG);
    story.look();
    return story;
  }

  @Test
  void passesOfADoseAreThoseThatTheStatusTold() {
    Story probe = settled(70.0);
    double fullG = status(probe, "S1").capacityG();
    // Short of its due line, so that nothing but the dose waters it.
    Story story = settled(fullG - 35.0);
    CupStatus told = status(story, "S1");
    List<Double> foretold = new ArrayList<>();
    double leftMl = told.roomMl();
    while (leftMl >= told.leastPassMl()) {
      foretold.add(Math.min(told.nextPassMl(), leftMl));
      leftMl -= foretold.get(foretold.size() - 1);
    }
    story
        .wait(Duration.ofMinutes(5))
        .look("{\"id\":\"o\",\"kind\":\"dose\",\"cup\":\"S1\",\"ml\":200,\"strength\":0}");
    story.run(Duration.ofHours(3));
    List<Double> given = story.passes.stream().map(Advice.Pass::plainMl).toList();
    assertEquals(foretold.size(), given.size(), () -> foretold + " foretold, given " + given);
    for (int i = 0; i < given.size(); i++) {
      assertEquals(foretold.get(i), given.get(i), 0.2);
    }
  }

  @Test
  void statusOfACupPastItsRefillLineTellsOfNoPass() {
    double fullG = status(settled(70.0), "S1").capacityG();
    CupStatus told = status(settled(fullG), "S1");
    assertEquals(0.0, told.nextPassMl());
    assertEquals(5.0, told.leastPassMl());
  }

  @Test
  void setupTellsTheTablesOfLimitsAndAlerts() {
    BenchSetup setup = settled(70.0).tick.setup(settled(70.0).state);
    assertEquals("hardware", setup.limits().get(0).code());
    assertEquals(LimitCode.values().length, setup.limits().size());
    assertEquals(AlertCode.values().length, setup.alerts().size());
    BenchSetup.Alert leak =
        setup.alerts().stream().filter(one -> one.code().equals("leak")).findFirst().orElseThrow();
    assertEquals(new BenchSetup.Alert("leak", "Leak", "mL", "", false, 0, true, false, true), leak);
  }
}
