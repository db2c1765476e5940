package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;

/** What a scale shows of a pass while its noise is great says nothing of the pump. */
class NoisyScaleStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  /**
   * A1 dries past its due line under that noise by night; of each pass half as much again arrives.
   */
  private static Story watered(double noiseG) {
    Story story = Story.from("2027-02-14T03:00:00Z");
    double massG = 295.0;
    for (int look = 0; look < 84; look++) {
      double shownG = massG + (look % 2 == 0 ? noiseG : -noiseG);
      double givenMl = story.givenMl("A1");
      story.wait(TICK).with("A1", shownG).look();
      massG += 1.5 * (story.givenMl("A1") - givenMl) - 8.0 / 12;
    }
    assertTrue(story.givenMl("A1") > 0.0);
    return story;
  }

  @Test
  void quietScaleTellsThatMoreCameThanWasOrdered() {
    assertTrue(watered(0.05).raised("dose-over"));
  }

  @Test
  void noisyOneDoesNot() {
    Story story = watered(0.6);
    assertFalse(story.raised("dose-over"));
    assertFalse(story.raised("dose-short"));
  }
}
