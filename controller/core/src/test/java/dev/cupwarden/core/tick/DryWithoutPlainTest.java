package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import java.time.Duration;
import org.junit.jupiter.api.Test;

/** A bench whose only tank holds feed; A1 may be fed, A2 is struck. */
class DryWithoutPlainTest {
  private static Story oneTank(double strength) {
    String tanks = "tanks:\n  feed: {size: 4 L, feed: leafy, strength: " + strength + "}\n";
    String yaml =
        Story.BENCH.replaceAll("(?s)tanks:\\n  plain: [^\\n]*\\n  feed: [^\\n]*\\n", tanks);
    yaml = yaml.replaceAll("    plain: \\{gpio[^\\n]*\\n", "");
    return new Story(yaml, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
  }

  private static Story dry(Story story, String cup, double depletion) {
    CupFrame frame = CupFrame.of(story.bench, story.bench.cups().get(cup));
    return story.with(cup, frame.weights().massG(depletion));
  }

  @Test
  void aCupThatMayBeFedTakesWeakFeedInHalfPasses() {
    Story story = dry(oneTank(0.25), "A1", 0.85);
    Advice first = story.look();
    assertEquals(1, first.passes().size());
    Advice.Pass pass = first.passes().get(0);
    assertEquals("rescue", pass.why());
    assertEquals(0.25, pass.strength());
    assertEquals(15.0, pass.feedMl() + pass.plainMl(), 0.1);
    assertTrue(story.raised("tank-unsuited"));
    Advice last = story.run(Duration.ofHours(5));
    assertTrue(last.cups().get("A1").depletion() < 0.5, last.cups().get("A1").toString());
    assertTrue(last.cups().get("A1").fed() <= 1.0);
  }

  @Test
  void feedAboveHalfOfTheLabelIsNotGivenOnDryRoots() {
    Story story = dry(oneTank(0.8), "A1", 0.85);
    story.run(Duration.ofHours(3));
    assertEquals(0.0, story.givenMl("A1"));
    assertTrue(
        story.alerts.stream().anyMatch(a -> a.code().equals("tank-empty") && "A1".equals(a.cup())));
  }

  @Test
  void aStruckCupGetsNoneAndThatIsTold() {
    Story story = dry(oneTank(0.25), "A2", 0.90);
    story.run(Duration.ofHours(3));
    assertEquals(0.0, story.givenMl("A2"));
    assertTrue(story.raised("tank-empty") && story.raised("near-dry"));
    assertTrue(
        story.alerts.stream().anyMatch(a -> a.code().equals("tank-empty") && "A2".equals(a.cup())));
    assertFalse(story.raised("hose"));
  }
}
