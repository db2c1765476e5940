package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.messages.Advice;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Whose turn it is among cups of one kind that all want water. */
class PutOutPassesTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  /** A1 is due past 0.50 and dry past 0.75; so are A3, A4 and A5. */
  private static Story story(double a1, double a3, double a4, double a5) {
    StringBuilder yaml = new StringBuilder(Story.BENCH);
    for (String cup : List.of("A3", "A4", "A5")) {
      yaml.append("  ")
          .append(cup)
          .append(": {vessel: tall, mix: coir-perlite, plant: vine, stage: toughened,")
          .append(" cutting: 14 g}\n");
    }
    Story story = new Story(yaml.toString(), "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    return holding(holding(holding(holding(story, "A1", a1), "A3", a3), "A4", a4), "A5", a5);
  }

  private static Story holding(Story story, String cup, double depletion) {
    CupFrame frame = CupFrame.of(story.bench, story.bench.cups().get(cup));
    return story.with(cup, frame.weights().massG(depletion));
  }

  private static List<String> cups(Advice advice) {
    return advice.passes().stream().map(Advice.Pass::cup).toList();
  }

  @Test
  void rescuesFirstThenTheDriestThenByName() {
    assertEquals(List.of("A4", "A5", "A1", "A3"), cups(story(0.55, 0.55, 0.80, 0.60).look()));
    assertEquals(List.of("A5", "A4", "A3", "A1"), cups(story(0.52, 0.55, 0.80, 0.85).look()));
  }

  @Test
  void onePassEachAndNoneWhileItSoaks() {
    Story story = story(0.60, 0.60, 0.60, 0.60);
    assertEquals(4, story.look().passes().size());
    assertEquals(List.of(), cups(story.wait(TICK).look()));
  }
}
