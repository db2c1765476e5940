package dev.cupwarden.host.review;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.host.store.Era;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * What a bench has taken from its tanks lately.
 *
 * @param plainMlPerD from its tanks of plain water together, mL a day
 * @param feedMlPerD from its tanks with feed together, mL a day
 * @param over how long that was looked at
 */
public record TankUse(double plainMlPerD, double feedMlPerD, Duration over) {
  /** So far back: a week has its sunny and its dull days, and is soon enough to show spring. */
  public static final Duration RECENT = Duration.ofDays(7);

  /** Water is given in a window of the day: less than a day says nothing of a day. */
  private static final Duration LEAST = Duration.ofDays(1);

  /**
   * From the passes given.
   *
   * @param doses data of events of kind {@code "dose"}, all those from {@code from} to {@code to}
   * @return empty where the time is too short to tell
   */
  public static Optional<TankUse> of(List<JsonNode> doses, Instant from, Instant to) {
    Duration over = Duration.between(from, to);
    if (over.compareTo(LEAST) < 0) {
      return Optional.empty();
    }
    double days = over.toSeconds() / (double) Duration.ofDays(1).toSeconds();
    return Optional.of(
        new TankUse(sum(doses, "plain_ml") / days, sum(doses, "feed_ml") / days, over));
  }

  private static double sum(List<JsonNode> doses, String volume) {
    return doses.stream().mapToDouble(dose -> dose.path(volume).asDouble()).sum();
  }

  /**
   * When tanks will be empty if use goes on so.
   *
   * @param leftMl in all tanks that the use is taken from
   * @return empty where nothing is used, or so little that no clock will show that time
   */
  public static Optional<Instant> emptyAt(double leftMl, double mlPerD, Instant now) {
    if (mlPerD <= 0) {
      return Optional.empty();
    }
    double seconds = leftMl / mlPerD * Duration.ofDays(1).toSeconds();
    if (seconds > Duration.between(now, Era.LATEST).toSeconds()) {
      return Optional.empty();
    }
    return Optional.of(now.plusSeconds(Math.round(Math.max(0, seconds))));
  }
}
