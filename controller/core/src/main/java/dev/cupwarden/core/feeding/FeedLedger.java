package dev.cupwarden.core.feeding;

import dev.cupwarden.core.dosing.Given;
import dev.cupwarden.core.setup.Feed;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;

/** What a cup was fed within the last label interval, in label-equivalents. */
public final class FeedLedger {
  /** One full watering at the label's strength is all that the label allows in an interval. */
  public static final double MOST = 1.0;

  private FeedLedger() {}

  /**
   * Sum of strength x mL over the cup's available water, over all that was given less than {@code
   * interval} ago.
   */
  public static double fed(List<Given> given, Instant at, Duration interval, double availableMl) {
    double sum = 0.0;
    Instant oldest = at.minus(interval);
    for (Given one : given) {
      if (one.at().isAfter(oldest)) {
        sum += one.strength() * one.ml();
      }
    }
    return sum / availableMl;
  }

  /**
   * The greatest strength that a pass may have without taking the ledger over, in label-equivalents
   * or in N, P or K: after a change of feed the label of the new one is the measure of all.
   *
   * @param feed what the pass would bring
   * @param feeds of the bench by name, for what was given before
   */
  public static double strengthLeft(
      List<Given> given,
      Instant at,
      Feed feed,
      Map<String, Feed> feeds,
      double passMl,
      double availableMl) {
    Instant oldest = at.minus(feed.labelEvery());
    LabelRate label = LabelRate.of(feed);
    Nutrients most = label.elementsMg(MOST, availableMl);
    Nutrients perStrength = label.elementsMg(1.0, passMl);
    Nutrients sum = Nutrients.NONE;
    double sameFeedMl = 0.0;
    for (Given one : given) {
      if (one.strength() <= 0.0 || !one.at().isAfter(oldest)) {
        continue;
      }
      if (feed.name().equals(one.feed())) {
        sameFeedMl += one.strength() * one.ml();
      } else {
        LabelRate was = LabelRate.of(feeds.getOrDefault(one.feed(), feed));
        sum = sum.plus(was.elementsMg(one.strength(), one.ml()));
      }
    }
    sum = sum.plus(label.elementsMg(1.0, sameFeedMl));
    double left = (MOST - fed(given, at, feed.labelEvery(), availableMl)) * availableMl / passMl;
    left = Math.min(left, part(most.nMg() - sum.nMg(), perStrength.nMg()));
    left = Math.min(left, part(most.pMg() - sum.pMg(), perStrength.pMg()));
    left = Math.min(left, part(most.kMg() - sum.kMg(), perStrength.kMg()));
    return Math.max(0.0, left);
  }

  /** A feed without an element is not held by it. */
  private static double part(double leftMg, double perStrengthMg) {
    return perStrengthMg > 0.0 ? leftMg / perStrengthMg : Double.POSITIVE_INFINITY;
  }
}
