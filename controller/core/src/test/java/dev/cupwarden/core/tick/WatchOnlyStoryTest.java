package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.state.CupState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A bench that is only watched: what it would be given is told, and stands in no book. */
class WatchOnlyStoryTest {
  private static final String DOSE =
      "{\"id\":\"o1\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":5,\"strength\":0}";

  /** A struck cup past its due line, in the window. */
  private static Story thirsty() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", 240.0);
    story.watchOnly = true;
    return story;
  }

  private CupState a1(Story story) {
    return story.state.cups().get("A1");
  }

  @Test
  void whatItWouldBeGivenIsToldAtEachLookAndCountsNowhere() {
    Story story = thirsty();
    double leftMl = story.state.tanks().get("plain").leftMl();
    for (int look = 0; look < 3; look++) {
      Tick.Step step = story.wait(Duration.ofMinutes(5)).step();
      assertEquals(List.of(), step.passes(), "nothing for the board");
      assertEquals(
          List.of("A1"), step.brief().passes().stream().map(Advice.Pass::cup).toList(), "told");
    }
    assertEquals(List.of(), a1(story).doses().given());
    assertNull(a1(story).watering().refill());
    assertNull(a1(story).witness().onTrial(), "no weight is held against it");
    assertEquals(leftMl, story.state.tanks().get("plain").leftMl(), 0.0);
    assertTrue(story.state.alerts().containsKey("watch-only"));
  }

  @Test
  void aPersonsCanIsSeenByItsWeightAndEndsTheAsking() {
    Story story = thirsty();
    story.run(Duration.ofHours(1));
    story.massG.merge("A1", 55.0, Double::sum);
    Advice after = story.run(Duration.ofMinutes(30));
    List<Given> given = a1(story).doses().given();
    assertEquals(1, given.size());
    assertTrue(given.get(0).byHand());
    assertEquals(55.0, given.get(0).ml(), 1.0);
    assertEquals(List.of(), after.passes());
  }

  @Test
  void whatAPersonOrdersOfThePumpIsRefused() {
    Receipt receipt = thirsty().look(DOSE).receipts().get(0);
    assertEquals("refused", receipt.outcome());
    assertEquals("the bench is only watched, and nothing is pumped", receipt.why());
  }

  @Test
  void aDoseUnderWayEndsWithTheFirstLookOfTheWatch() {
    Story story = thirsty();
    story.watchOnly = false;
    story.look(DOSE.replace("\"ml\":5", "\"ml\":16"));
    assertEquals(1, a1(story).doses().given().size(), "the first pass of it ran");
    story.watchOnly = true;
    Receipt over = story.wait(Duration.ofMinutes(5)).look().receipts().get(0);
    assertEquals("done", over.outcome());
    assertTrue(
        over.why().startsWith("ended early: the bench is only watched"), "told: " + over.why());
    assertNull(a1(story).watering().refill());
  }

  @Test
  void theWatchOverTheSameCupIsWateredAtOnce() {
    Story story = thirsty();
    story.run(Duration.ofHours(1));
    story.watchOnly = false;
    assertEquals(1, story.wait(Duration.ofMinutes(5)).step().passes().size());
    assertFalse(story.state.alerts().containsKey("watch-only"));
  }
}
