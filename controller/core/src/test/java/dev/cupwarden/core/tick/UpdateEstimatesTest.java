package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Decision;
import dev.cupwarden.core.messages.Observation;
import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What readings of A1 make of it, by hand: 515.590 mL of mix, 78.559 g dry, 401.872 g and 323.313
 * mL at capacity, of which it can take 271.754 mL (CupWaterTest). Its water has 0.30 mS/cm.
 */
class UpdateEstimatesTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  private static Story steady(String stage) {
    String yaml = Story.BENCH.replace("stage: toughened", "stage: " + stage);
    return new Story(yaml, "2027-02-14T18:00:00Z", Tick.Rounds.ONE_A_TICK).with("A1", 340.0);
  }

  private static Decision decision(Story story) {
    return story.tick.standing(story.state).decisions().get("A1");
  }

  /** 78.559 + 0.40 x 515.590 = 284.795 g. */
  @Test
  void probeSpeaksOfTheWaterInTheMix() {
    Story story = Story.from("2027-02-14T18:00:00Z");
    SortedMap<String, Double> theta = new TreeMap<>();
    theta.put("A1", 0.40);
    Observation seen =
        new Observation(
            story.at,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            new TreeMap<>(),
            theta,
            new TreeMap<>(),
            false,
            false,
            false,
            List.of(),
            false,
            false,
            false);
    story.state = story.tick.step(story.state, seen).state();
    assertEquals(284.795, decision(story).massG(), 0.01);
    assertEquals((401.872 - 284.795) / 271.754, decision(story).depletion(), 1e-4);
  }

  /** 50 mL of 0.30 mS/cm in 323.313 mL that were wetted with the same. */
  @Test
  void riseThatNothingExplainsIsAPersonsCan() {
    Story story = steady("toughened");
    story.look();
    story.run(Duration.ofHours(1));
    assertEquals(0.3, decision(story).saltMsPerCm());
    story.with("A1", 390.0).run(Duration.ofHours(1));
    assertEquals(390.0, decision(story).massG(), 0.5);
    assertEquals(0.30 + 50 * 0.30 / 323.313, decision(story).saltMsPerCm(), 1e-3);
  }

  /**
   * 100 mL at half strength are 125.76 mS/cm x mL (ReportTest). Of what a circling cup loses 0.55
   * goes through its leaves, and takes 0.625 mS/cm of feed and 0.2 of the water along
   * (SaltBalanceTest): in a day at 2 g/h 48 x 0.55 x 0.825 = 21.8; toughened, 0.35: 13.9; struck
   * none.
   */
  @ParameterizedTest(name = "{0}: {1} mS/cm x mL taken")
  @CsvSource({"circling, 21.8", "toughened, 13.9", "struck, 0"})
  void plantTakesSaltsWithTheWaterThatItLoses(String stage, double taken) {
    Story story = steady(stage);
    story.rateGPerH.put("A1", 2.0);
    story.look();
    story.run(Duration.ofHours(12));
    story
        .with("A1", story.massG.get("A1") + 60.0)
        .wait(TICK)
        .look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":100,\"strength\":0.5}");
    story.run(Duration.ofHours(1));
    double beforeMsPerCm = decision(story).saltMsPerCm();
    story.run(Duration.ofHours(24));
    double lessMsMl = (beforeMsPerCm - decision(story).saltMsPerCm()) * 323.313;
    assertEquals(taken, lessMsMl, 0.1 * taken + 0.01);
  }

  @Test
  void cupThatIsLiftedIsNotTrustedUntilItHasStoodForTenQuietMinutes() {
    Story story = steady("toughened");
    story.look();
    story.run(Duration.ofHours(1));
    story.with("A1", 0.0).wait(TICK).look();
    assertEquals(CupActivity.UNTRUSTED, decision(story).state());
    story.with("A1", 339.0).wait(TICK).look();
    assertEquals(CupActivity.UNTRUSTED, decision(story).state());
    story.run(Duration.ofMinutes(15));
    assertTrue(decision(story).state() != CupActivity.UNTRUSTED, decision(story).toString());
    assertEquals(339.0, decision(story).massG(), 0.5);
  }
}
