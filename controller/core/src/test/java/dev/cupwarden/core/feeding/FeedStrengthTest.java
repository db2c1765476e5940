package dev.cupwarden.core.feeding;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Strength = T (d / D) / v, worked out by hand. */
class FeedStrengthTest {
  private static final Instant SEEN = Instant.parse("2027-02-01T08:00:00Z");

  private static FeedingRules rules(double floor, double ceiling) {
    return new FeedingRules(
        floor,
        ceiling,
        Map.of(RootStage.TOUGHENED, 0.5, RootStage.CIRCLING, 1.0, RootStage.WHITE, 0.9),
        Optional.empty(),
        List.of());
  }

  @Test
  @Outside(source = "watered twice as often as the label says: half strength (common practice)")
  void halfStrengthWhereWateredTwiceInAnInterval() {
    assertEquals(0.5, FeedStrength.of(rules(0, 9), 1.0, 7.0, 14.0, 1.0), 1e-12);
  }

  @ParameterizedTest(name = "T {0}, d {1}, D {2}, v {3}: {4}")
  @CsvSource({
    "1.0, 14, 14, 1.0, 1.0",
    "1.0, 3.5, 14, 1.0, 0.25",
    "0.5, 7, 14, 1.0, 0.25",
    "1.0, 7, 28, 1.0, 0.25",
    "1.0, 7, 14, 0.5, 1.0",
    "0.5, 4, 14, 0.45, 0.31746031746",
    "0.0, 7, 14, 1.0, 0.0"
  })
  void strengthByTargetHabitAndLabel(
      double target, double everyDays, double intervalDays, double part, double strength) {
    double found = FeedStrength.of(rules(0, 9), target, everyDays, intervalDays, part);
    assertEquals(strength, found, 1e-9);
  }

  @ParameterizedTest(name = "T {0}: {1}")
  @CsvSource({"0.0, 0.0", "0.1, 0.1", "0.2, 0.1", "0.4, 0.2", "1.0, 0.5", "1.2, 0.5"})
  void floorAndCeilingOfTheBenchAndNoneForWhatTakesNoFeed(double target, double strength) {
    assertEquals(strength, FeedStrength.of(rules(0.1, 0.5), target, 7.0, 14.0, 1.0), 1e-12);
  }

  @ParameterizedTest(name = "{0} after {1} d: {2}")
  @CsvSource({
    "TOUGHENED, -3, 0.25",
    "TOUGHENED, 0, 0.25",
    "TOUGHENED, 14, 0.375",
    "TOUGHENED, 28, 0.5",
    "TOUGHENED, 56, 0.5",
    "CIRCLING, 0, 0.5",
    "CIRCLING, 7, 0.625",
    "CIRCLING, 28, 1.0",
    "WHITE, 28, 0.0",
    "STRUCK, 28, 0.0"
  })
  void targetRisesFromHalfOverTwoIntervals(RootStage stage, long days, double target) {
    Instant at = SEEN.plus(Duration.ofDays(days));
    double found = FeedStrength.target(rules(0, 9), stage, SEEN, at, Duration.ofDays(14));
    assertEquals(target, found, 1e-12);
  }

  @ParameterizedTest(name = "roots at {0} °C, cold below {1} °C: {2}")
  @CsvSource({
    "20, 12, 1.0",
    "18, 12, 1.0",
    "15, 12, 0.5",
    "13.5, 12, 0.25",
    "12, 12, 0.0",
    "9, 12, 0.0",
    "NaN, 12, 1.0",
    "15, 18, 1.0",
    "16, 14, 0.5"
  })
  void coolRootsTakeLess(double rootC, double coldC, double part) {
    assertEquals(part, FeedStrength.coolRootsPart(rootC, coldC), 1e-12);
  }
}
