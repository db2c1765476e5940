package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.Advice;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Whether a cup wants water at its lines: A1 (toughened) is due past 0.50 and dry past 0.75, A2
 * (struck) past 0.60 and 0.85. The window is open from 08:00 to 16:00.
 */
class ProposeWaterTest {
  private static String why(String cup, double depletion, String at) {
    Story story = Story.from("2027-02-14T" + at + ":00Z");
    CupFrame frame = CupFrame.of(story.bench, story.bench.cups().get(cup));
    Advice advice = story.with(cup, frame.weights().massG(depletion)).look();
    return advice.passes().stream().map(Advice.Pass::why).reduce("", String::concat);
  }

  @ParameterizedTest(name = "{0} at {1}, {2}: {3}")
  @CsvSource({
    "A1, 0.4999, 08:00, ''",
    "A1, 0.5001, 08:00, due",
    "A1, 0.7499, 08:00, due",
    "A1, 0.7501, 08:00, rescue",
    "A2, 0.5999, 08:00, ''",
    "A2, 0.6001, 08:00, due",
    "A2, 0.8499, 08:00, due",
    "A2, 0.8501, 08:00, rescue",
    "A1, 0.7499, 07:59, ''",
    "A1, 0.7499, 15:59, due",
    "A1, 0.7499, 16:00, ''",
    "A1, 0.7501, 16:00, rescue",
    "A1, 0.7501, 03:00, rescue"
  })
  void wantsWaterPastItsLines(String cup, double depletion, String at, String why) {
    assertEquals(why, why(cup, depletion, at));
  }
}
