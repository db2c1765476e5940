package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A spring week: a cup goes out at nine and comes back at five, and nobody says so. Sun dries it by
 * 20 g, rain adds 40.
 */
class CarryOutStoryTest {
  private final Story story = Story.from("2027-04-05T07:00:00Z").with("A1", 360.0);

  CarryOutStoryTest() {
    story.rateGPerH.put("A1", 0.4);
    story.look();
    story.run(Duration.ofHours(2));
  }

  /** From nine to nine the next morning. */
  private void dayOut(int hours, double gainedG) {
    final double leftG = story.massG.get("A1");
    gone(hours);
    story.massG.put("A1", leftG + gainedG);
    story.run(Duration.ofHours(24 - hours));
  }

  private void gone(int hours) {
    double rate = story.rateGPerH.remove("A1");
    story.massG.put("A1", 0.0);
    story.run(Duration.ofHours(hours));
    story.rateGPerH.put("A1", rate);
  }

  private List<Instant> told() {
    return story.alerts.stream()
        .filter(alert -> alert.code().equals("cup-away") && alert.state().equals("raised"))
        .map(AlertNotice::since)
        .toList();
  }

  private CupActivity activity() {
    return story.tick.standing(story.state).statuses().get(0).state();
  }

  private double depletion() {
    return story.tick.standing(story.state).statuses().get(0).depletion();
  }

  @Test
  void onTheFourthLikeDayNothingIsToldAndTheForgottenCupIsInTheEvening() {
    dayOut(8, -20);
    dayOut(8, -20);
    dayOut(8, -20);
    assertEquals(3, told().size(), "each day after six hours");
    gone(4);
    assertEquals(CupActivity.AWAY, activity());
    story.run(Duration.ofHours(4));
    story.massG.put("A1", 260.0);
    story.run(Duration.ofHours(16));
    assertEquals(3, told().size(), "none on the fourth");
    gone(10);
    assertEquals(3, told().size(), "until nineteen o'clock it may come");
    story.run(Duration.ofMinutes(15));
    assertEquals(4, told().size());
    // Seen back at 17:05; later than two hours after that is the next look.
    assertEquals(Instant.parse("2027-04-09T19:10:00Z"), told().get(3));
  }

  @Test
  void sunAndRainComeInWithTheWeight() {
    double before = depletion();
    dayOut(8, -20);
    // 20 g outside and 16 h at 0.4 g of 271.8 mL.
    assertEquals(before + (20 + 6.4) / 271.8, depletion(), 0.004);
    double dry = depletion();
    dayOut(8, 40);
    assertEquals(dry + (-40 + 6.4) / 271.8, depletion(), 0.004);
    List<Given> given = story.state.cups().get("A1").doses().given();
    assertTrue(given.stream().allMatch(Given::byHand), "nothing was pumped into it");
    assertEquals(CupActivity.STEADY, activity());
  }
}
