package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;

/**
 * How strong a stage's own feed may be: roots that have just toughened, or just reached the wall,
 * get less at first. 50 to 100 mg/L N for rooted cuttings is from propagation texts (Hort. Rev.
 * 44); how it rises is our choice.
 *
 * @param strength label strength at most; 0 for a stage that takes no feed
 * @param mostNMgPerL nitrogen at most
 */
public record StageFeed(double strength, double mostNMgPerL) {
  public static final StageFeed NONE = new StageFeed(0.0, 0.0);

  /**
   * What a stage has of its own strength within its first label interval: 0.25 of 0.33, 75 of 100;
   * 0.33 of 0.5, 100 of 150.
   */
  private static final Map<RootStage, Double> AT_FIRST =
      Map.of(RootStage.TOUGHENED, 0.75, RootStage.CIRCLING, 2.0 / 3.0);

  /** What a stage may have in the end. */
  public static StageFeed risen(FeedingRules rules, RootStage stage) {
    return stage.takesFeed()
        ? new StageFeed(rules.strength().get(stage), rules.mostNMgPerL().get(stage))
        : NONE;
  }

  /**
   * What it may have now: the less for a label interval, over the second one rising to all of it.
   */
  public static StageFeed at(
      FeedingRules rules, RootStage stage, Instant stageSince, Instant at, Duration interval) {
    StageFeed risen = risen(rules, stage);
    double intervals = (double) Duration.between(stageSince, at).toMillis() / interval.toMillis();
    double part = Math.min(1.0, Math.max(0.0, intervals - 1.0));
    double first = AT_FIRST.getOrDefault(stage, 1.0);
    double now = first + (1.0 - first) * part;
    return new StageFeed(risen.strength * now, risen.mostNMgPerL * now);
  }

  /**
   * Its label strength of a feed of which label strength holds so much nitrogen.
   *
   * @param labelNMgPerL 0 where it holds none: then only the strength counts
   */
  public double ofLabel(double labelNMgPerL) {
    return labelNMgPerL > 0.0 ? Math.min(strength, mostNMgPerL / labelNMgPerL) : strength;
  }
}
