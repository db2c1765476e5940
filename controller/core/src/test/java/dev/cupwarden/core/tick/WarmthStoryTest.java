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

/** Which thermometer speaks for whom: cold 12 °C, frost 3 °C; A1 is due at 266 g, A2 at 140 g. */
class WarmthStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  /** A heat mat in a cold room: eight days without water had dried such cups up. */
  @Test
  void warmRootsAreWateredInAColdRoom() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", 255.0);
    story.airC = 2.0;
    story.rootC = 20.0;
    story.look();
    assertEquals(List.of("A1"), story.passes.stream().map(Advice.Pass::cup).toList());
    assertFalse(story.raised("frost"));
  }

  /** What stands in a drip end freezes, however warm the mat. */
  @Test
  void nothingIsPumpedWhereWaterFreezesInTheHose() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", 185.0);
    story.airC = 0.5;
    story.rootC = 20.0;
    assertEquals(List.of("frost"), story.look().cups().get("A1").checks());
    assertTrue(story.raised("frost"));
    story.airC = 0.7;
    assertEquals(1, story.wait(TICK).look().passes().size());
  }

  /**
   * A thermometer that shows the same to the last digit while the air falls by 3 K is no witness.
   */
  @ParameterizedTest(name = "air falls from 5.5 to {0} °C, roots then {1} °C: watered {2}")
  @CsvSource({"2.6, 20.0, true", "2.5, 20.0, false", "2.5, 19.9, true"})
  void rootsThatStandStillAreDoubted(double airC, double rootC, boolean watered) {
    Story story = Story.from("2027-02-14T06:00:00Z").with("A1", 255.0);
    story.airC = 5.5;
    story.rootC = 20.0;
    story.look();
    story.airC = airC;
    story.rootC = rootC;
    story.wait(Duration.ofHours(3)).look();
    assertEquals(watered, !story.passes.isEmpty());
  }

  /** For six hours what it last showed is believed, then the air is. */
  @ParameterizedTest(name = "silent for {0} min: watered {1}")
  @CsvSource({"360, true", "361, false"})
  void rootThermometerThatFellSilentYieldsToTheAir(int minutes, boolean watered) {
    Story story = Story.from("2027-02-14T03:00:00Z").with("A1", 255.0);
    story.airC = 2.0;
    story.rootC = 20.0;
    story.look();
    story.rootC = Double.NaN;
    Advice later = story.wait(Duration.ofMinutes(minutes)).look();
    assertEquals(watered, !later.cups().get("A1").checks().contains("frost"));
  }

  /** A cup off the mat is as cold as the room, and named. */
  @Test
  void thermometerSpeaksForTheCupsItNames() {
    Story story =
        new Story(
                Story.BENCH.replace("heat: 30 C", "heat: 30 C\n  root_cups: [A1]"),
                "2027-02-14T09:00:00Z",
                Tick.Rounds.ONE_A_TICK)
            .with("A1", 255.0)
            .with("A2", 140.0);
    story.airC = 2.0;
    story.rootC = 20.0;
    Advice advice = story.look();
    assertEquals(List.of("frost", "cold"), advice.cups().get("A2").checks());
    assertEquals(List.of("A1"), story.passes.stream().map(Advice.Pass::cup).toList());
    assertEquals(
        "Move these cups out of the frost; they get no water: A2.",
        advice.alerts().stream()
            .filter(alert -> alert.code().equals("frost"))
            .findFirst()
            .orElseThrow()
            .whatToDo());
  }

  /** Without a thermometer in any cup cold is the air's, and a dry cup is still rescued. */
  @ParameterizedTest(name = "air {0} °C, {1} g: watered {2}")
  @CsvSource({"11.9, 255, false", "12.0, 255, true", "11.9, 185, true"})
  void coldGoesByTheAirWhereNothingTellsOfTheRoots(double airC, double g, boolean watered) {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", g);
    story.airC = airC;
    story.look();
    assertEquals(watered, !story.passes.isEmpty());
  }
}
