package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.estimate.DistrustCode;
import dev.cupwarden.core.estimate.OwnWater;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.state.DoseWitness;
import java.time.Duration;
import java.time.Instant;
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

  /**
   * Nobody has weighed A1 for a day, and its depletion is known to so much. Its mix drains before
   * it is too wet, which its passes must have shown.
   */
  @ParameterizedTest(name = "known to {0}, passes seen {1}: {2}")
  @CsvSource({"0.24, false, true", "0.26, false, false", "0.26, true, true", "0.90, true, true"})
  void noDoubtEndsTheWaterOfABlindCupThatDrains(double sd, boolean passesSeen, boolean watered) {
    double sdG = sd * DraftBench.A1_AVAILABLE_ML;
    BenchDraft draft = new DraftBench().draft();
    CupDraft cup = DraftBench.doubted(draft, "A1", 300.0, sdG, DistrustCode.SCALE_SILENT);
    Instant since = DraftBench.AT.minus(Duration.ofDays(1));
    cup.reckonFrom(new OwnWater(since, DraftBench.AT, 300.0, sdG * sdG, 0.0, 0.04, 1.0, 1.0, 0.0));
    cup.weight = cup.weight.distrusted(since);
    DoseWitness was = cup.witness;
    cup.witness =
        new DoseWitness(
            passesSeen, was.soaking(), was.onTrial(), was.rising(), was.shortRun(), was.steps());
    assertEquals(watered, cup.wateredBlind(DraftBench.AT));
  }
}
