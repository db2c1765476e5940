package dev.cupwarden.core.tick;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.watering.PredictedUse;
import java.util.ArrayList;
import java.util.List;

/**
 * What a bench's cups are going to ask of its tanks, by their stages alone, before anything was
 * learned of them.
 *
 * @param waterMlPerD all water, mL a day
 * @param feedMlPerD of it from a feed tank of that strength, mL a day
 * @param leastStrength the weakest feed that any cup wants; 0 where some cup may have none
 * @param unfed cups that may not be fed, in order of name
 */
public record FeedDemand(
    double waterMlPerD, double feedMlPerD, double leastStrength, List<String> unfed) {

  /**
   * Predicted from the bench file.
   *
   * @param feed the feed by whose label the cups are fed
   * @param tankStrength label strength of what is in the feed tank, above 0
   * @throws IllegalArgumentException where a cup's vessel, mix and lines do not go together
   */
  public static FeedDemand predicted(Bench bench, Feed feed, double tankStrength) {
    double waterMl = 0.0;
    double feedMl = 0.0;
    double least = Double.POSITIVE_INFINITY;
    List<String> unfed = new ArrayList<>();
    for (Cup cup : bench.cups().values()) {
      CupFrame frame = CupFrame.of(bench, cup);
      double refilledPart = frame.lines().due() - frame.lines().refill();
      double everyDays = PredictedUse.days(cup.stage());
      double mlPerD = refilledPart * frame.water().availableMl() / everyDays;
      waterMl += mlPerD;
      if (!cup.stage().takesFeed()) {
        unfed.add(cup.name());
        continue;
      }
      double strength = FeedReach.risen(bench, cup, feed, refilledPart);
      least = Math.min(least, strength);
      feedMl += mlPerD * Math.min(1.0, strength / tankStrength);
    }
    boolean allFed = unfed.isEmpty() && Double.isFinite(least);
    return new FeedDemand(waterMl, feedMl, allFed ? least : 0.0, List.copyOf(unfed));
  }
}
