package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.Advice;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * First pass of A1 of the example bench (toughened, target 0.5, feed tank at 0.5), by hand: a
 * quarter of the label, but at most 75 of its 306.43 mg/L N, 0.24475; the label's allowance over
 * its waterings, 0.5 (4 / 14) / 0.45 = 0.317, leaves that. Of 30 mL it is 14.6 mL of the tank, in
 * whole tenths; half of it, 7.3 mL, at 15 °C.
 */
class StrengthMeantTest {
  @ParameterizedTest(name = "roots at {0} °C: {1} mL of feed")
  @CsvSource({"NaN, 14.6", "18, 14.6", "15, 7.3", "12, 0.0"})
  void firstPassIsAsStrongAsStageHabitAndRootsWant(double rootC, double feedMl) {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.rootC = rootC;
    Advice.Pass pass = story.look().passes().get(0);
    assertEquals(feedMl, pass.feedMl(), 1e-9);
    assertEquals(30.0 - feedMl, pass.plainMl(), 1e-9);
    assertEquals(feedMl * 0.5 / 30.0, pass.strength(), 5e-5, "told to four decimals");
  }
}
