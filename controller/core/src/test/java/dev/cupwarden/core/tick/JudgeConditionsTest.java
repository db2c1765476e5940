package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Where an alert begins and ends, just under and just over; all bounds are our choice. */
class JudgeConditionsTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  private static Story steady() {
    return Story.from("2027-02-14T08:00:00Z").with("A1", 350.0);
  }

  private static Story holding(double depletion) {
    Story story = Story.from("2027-02-14T08:00:00Z");
    CupFrame frame = CupFrame.of(story.bench, story.bench.cups().get("A1"));
    return story.with("A1", frame.weights().massG(depletion));
  }

  /**
   * The example bench: cold below 12 °C, frost below 3 °C, heat at the roots above 27 °C; back by 1
   * °C.
   */
  @ParameterizedTest(name = "{0}: {1} °C none, {2} °C raised, {3} °C still, {4} °C cleared")
  @CsvSource({
    "cold, 12.0, 11.9, 12.9, 13.1",
    "frost, 3.0, 2.9, 3.9, 4.1",
    "heat, 27.0, 27.1, 26.1, 25.9"
  })
  void climateOfTheRoots(String code, double none, double raised, double still, double cleared) {
    Story story = steady();
    story.rootC = none;
    story.look();
    assertFalse(story.raised(code));
    story.rootC = raised;
    story.wait(TICK).look();
    assertTrue(story.raised(code));
    story.rootC = still;
    story.wait(TICK).look();
    assertFalse(story.cleared(code));
    story.rootC = cleared;
    story.wait(TICK).look();
    assertTrue(story.cleared(code));
  }

  /** Heat is the air's as well, frost where water freezes in the hose, and both where none tell. */
  @ParameterizedTest(name = "air {1} °C, roots {2} °C: {0} {3}")
  @CsvSource({
    "frost, 0.6, 18, false",
    "frost, 0.5, 18, true",
    "frost, 2.9, NaN, true",
    "frost, 3.0, NaN, false",
    "heat, 30.1, 18, true",
    "cold, 11.9, 18, false",
    "cold, 11.9, NaN, true",
    "cold, 12.0, NaN, false"
  })
  void climateOfTheAir(String code, double airC, double rootC, boolean raised) {
    Story story = steady();
    story.rootC = rootC;
    story.airC = airC;
    story.look();
    assertEquals(raised, story.raised(code));
  }

  /** A tenth of 12 L. */
  @ParameterizedTest(name = "{0} mL of plain water: low {1}")
  @CsvSource({"1200, false", "1199, true"})
  void tankIsLowBelowATenth(double ml, boolean low) {
    Story story = steady();
    story.tankMl.put("plain", ml);
    story.look();
    assertEquals(low, story.raised("tank-low"));
  }

  /** By 0.05 before its dry line at 0.75. */
  @ParameterizedTest(name = "depletion {0}: near-dry {1}")
  @CsvSource({"0.6999, false", "0.7001, true"})
  void nearItsDryLine(double depletion, boolean near) {
    Story story = holding(depletion);
    story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-16T08:00:00Z\"}");
    assertEquals(near, story.raised("near-dry"));
  }

  /** Of one that was lifted nobody said so: six hours; of one said to be away: fourteen days. */
  @Test
  void cupIsMissedAfterSixHours() {
    Story story = steady();
    story.look();
    story.run(Duration.ofHours(1));
    story.with("A1", 0.0).wait(TICK).look();
    story.run(Duration.ofHours(6));
    assertFalse(story.raised("cup-away"), "six hours to the minute");
    story.wait(TICK).look();
    assertTrue(story.raised("cup-away"));
  }
}
