package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the weight says of passes of 30 mL to A1, and what becomes of the next. Soak is 12 minutes,
 * a tick five: the next pass is 15 minutes later, or 25 where the soak is doubled.
 */
class JudgeDosesTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  private static Story dry(double arrives) {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 230.0);
    story.arrives.put("A1", arrives);
    return story;
  }

  /** Minutes until the next pass, and how much it is. */
  private static List<Double> next(Story story) {
    for (double minutes = 5.0; minutes <= 60.0; minutes += 5.0) {
      Advice advice = story.wait(TICK).look();
      if (!advice.passes().isEmpty()) {
        Advice.Pass pass = advice.passes().get(0);
        return List.of(minutes, pass.plainMl() + pass.feedMl());
      }
    }
    return List.of();
  }

  /** Four fifths of 30 mL are 24 mL. */
  @ParameterizedTest(name = "{0} of a pass arrive: the next of {2} mL after {1} min")
  @CsvSource({"1.0, 15, 30", "0.81, 15, 30", "0.79, 25, 15", "0.5, 25, 15", "0.21, 25, 15"})
  void passThatRanPastTheMixIsHalvedAndItsSoakDoubled(double arrives, double minutes, double ml) {
    Story story = dry(arrives);
    story.look();
    assertEquals(List.of(minutes, ml), next(story));
  }

  @Test
  void twoBypassesLeaveAQuarterAndOnePassThatArrivesDoublesIt() {
    Story story = dry(0.5);
    story.look();
    assertEquals(List.of(25.0, 15.0), next(story));
    story.arrives.put("A1", 1.0);
    assertEquals(List.of(25.0, 7.5), next(story), "the one before was still half");
    assertEquals(List.of(25.0, 15.0), next(story));
    assertEquals(List.of(15.0, 30.0), next(story));
  }

  /** A fifth of 30 mL are 6 mL. */
  @ParameterizedTest(name = "{0} of two passes arrive: latched {1}")
  @CsvSource({"0.19, true", "0.21, false"})
  void twoPassesThatCameShortLatchTheCup(double arrives, boolean latched) {
    Story story = dry(arrives);
    story.look();
    story.run(Duration.ofMinutes(60));
    assertEquals(latched, story.raised("dose-short"));
  }

  @Test
  void oneThatCameShortLatchesNothing() {
    Story story = dry(0.0);
    story.look();
    story.arrives.put("A1", 1.0);
    next(story);
    story.run(Duration.ofMinutes(60));
    assertFalse(story.raised("dose-short"));
    assertTrue(story.passes.size() > 2);
  }
}
