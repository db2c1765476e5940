package dev.cupwarden.core.tick;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.LabelRate;
import dev.cupwarden.core.feeding.StageFeed;
import dev.cupwarden.core.limits.HoseLimit;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.core.watering.PredictedUse;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * How strong the water of a cup can be at most over one refill of its own, where a hose is shared
 * with cups that may not be fed: as many passes as can be are all feed, and the plain ones after
 * them leave the hose fit for the others. With other fed cups beside it a cup may do better.
 *
 * @param meant label strength that its stage wants once its target is reached
 * @param refillMl from its due line to its refill line
 * @param reached mean label strength over that refill at most
 */
public record FeedReach(String cup, double meant, double refillMl, double reached) {
  /** As near to what is meant as a person can measure. */
  private static final double ENOUGH_PART = 0.9;

  /** Whether the cup gets what is meant, but for a tenth. */
  public boolean enough() {
    return reached >= ENOUGH_PART * meant;
  }

  /**
   * Every cup that is fed, in order of name.
   *
   * @throws IllegalArgumentException where a cup's vessel, mix and lines do not go together
   */
  public static List<FeedReach> of(Bench bench) {
    Optional<Tank> strongest =
        bench.tanks().values().stream()
            .filter(tank -> tank.feed().isPresent())
            .max(Comparator.comparingDouble(Tank::strength));
    List<FeedReach> reaches = new ArrayList<>();
    if (strongest.isEmpty()) {
      return reaches;
    }
    double unfedPassMl =
        bench.cups().values().stream()
            .filter(cup -> !cup.stage().takesFeed())
            .mapToDouble(cup -> passMl(bench, cup))
            .min()
            .orElse(Double.NaN);
    for (Cup cup : bench.cups().values()) {
      if (cup.stage().takesFeed()) {
        reaches.add(of(bench, cup, strongest.get(), unfedPassMl));
      }
    }
    return List.copyOf(reaches);
  }

  private static FeedReach of(Bench bench, Cup cup, Tank tank, double unfedPassMl) {
    CupFrame frame = CupFrame.of(bench, cup);
    Feed feed = bench.feeds().get(tank.feed().get());
    double refilledPart = frame.lines().due() - frame.lines().refill();
    double refillMl = refilledPart * frame.water().availableMl();
    double meant = risen(bench, cup, feed, refilledPart);
    double most = Math.min(bench.feeding().ceiling(), tank.strength());
    double reached = most;
    if (!Double.isNaN(unfedPassMl) && bench.hose().drain().isEmpty()) {
      double passMl = Math.min(passMl(bench, cup), refillMl);
      reached = most(bench, feed, tank.strength(), refillMl, passMl, unfedPassMl);
    }
    return new FeedReach(cup.name(), meant, refillMl, Math.min(most, reached));
  }

  /** What a stage is given in the end, where roots are warm and salts low: by its predicted use. */
  static double risen(Bench bench, Cup cup, Feed feed, double refilledPart) {
    FeedingRules rules = bench.feeding();
    double labelNMgPerL = LabelRate.of(feed).elementsMg(1.0, 1000.0).nMg();
    double spread =
        FeedStrength.spread(
            rules.target().getOrDefault(cup.stage(), 0.0),
            PredictedUse.days(cup.stage()),
            feed.labelEvery().toMinutes() / 1440.0,
            refilledPart);
    FeedStrength own = FeedStrength.of(StageFeed.risen(rules, cup.stage()), labelNMgPerL);
    double strength =
        own.lesser(FeedStrength.Cap.LABEL, spread, own.strength(), spread)
            .atLeast(rules.floor(), own.strength())
            .strength();
    return Math.min(rules.ceiling(), strength);
  }

  /** Feed first, tenth of a pass by tenth of a pass, for as long as the rest clears the hose. */
  private static double most(
      Bench bench, Feed feed, double tank, double refillMl, double passMl, double unfedPassMl) {
    double reached = 0.0;
    for (double feedMl = 0.0; feedMl <= refillMl; feedMl += passMl / 10.0) {
      Hose hose = Hose.full(bench.hose().volumeMl(), 0.0, null);
      double fullMl = Math.floor(feedMl / passMl) * passMl;
      double partMl = feedMl - fullMl;
      Hose.Flow flow =
          hose.push(
              new Hose.Slug(fullMl, tank, feed.name()),
              Hose.Slug.plain(Math.min(passMl - partMl, refillMl - feedMl)),
              new Hose.Slug(partMl, tank, feed.name()),
              Hose.Slug.plain(Math.max(0.0, refillMl - fullMl - passMl)));
      Hose.Flow unfed = flow.after().push(Hose.Slug.plain(unfedPassMl));
      double mgPerL = LabelRate.of(feed).elementsMg(unfed.strength(), 1000.0).nMg();
      if (mgPerL * HoseDraft.SCATTER > HoseLimit.MOST_N_MG_PER_L) {
        break;
      }
      reached = flow.strength();
    }
    return reached;
  }

  private static double passMl(Bench bench, Cup cup) {
    double mostMl =
        Math.min(bench.watering().passMl(), 0.1 * CupFrame.of(bench, cup).water().capacityMl());
    return Math.max(Limits.LEAST_PASS_ML, mostMl);
  }
}
