package dev.cupwarden.core.tick;

import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.LabelRate;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.StageFeed;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.PredictedUse;
import dev.cupwarden.core.watering.Refill;
import java.time.Duration;

/**
 * How strong a cup's water is meant to be: what a person asked, else the least of what its stage
 * may have, the label's allowance spread over its waterings, what its mix lacks of feed, and what
 * cool roots and salts leave.
 */
final class StrengthMeant {
  private StrengthMeant() {}

  /** Of a refill: what a person asked; none for a rescue; else as the cup's own feed is meant. */
  static double of(BenchDraft draft, CupDraft cup, Refill wanted) {
    if (!Double.isNaN(wanted.strengthAsked())) {
      return wanted.strengthAsked();
    }
    return wanted.cause() == Cause.RESCUE ? 0.0 : of(draft, cup);
  }

  /** Of the program's own feed. */
  static double of(BenchDraft draft, CupDraft cup) {
    return Math.min(draft.bench.feeding().ceiling(), meant(draft, cup).strength());
  }

  /**
   * What bounds a pass of the program's own. Unbound where the mean over a refill is what counts,
   * through a hose that cups share, and where no plain water is to be had to thin feed with: water
   * comes first. Of a stage that takes none, of roots too cold and of salts too high their own
   * limits tell.
   */
  static FeedStrength mostOfPass(BenchDraft draft, CupDraft cup) {
    Supply supply = draft.supply();
    boolean thinned = supply.hasPlain() && supply.plainMl() >= Limits.LEAST_PASS_ML;
    if (!thinned || draft.hose.shared() || !cup.setup.stage().takesFeed()) {
      return FeedStrength.UNBOUND;
    }
    FeedStrength meant = meant(draft, cup);
    boolean toldElsewhere =
        meant.by() == FeedStrength.Cap.COOL || meant.by() == FeedStrength.Cap.SALT;
    return meant.strength() <= 0.0 && toldElsewhere ? FeedStrength.UNBOUND : meant;
  }

  /** What stage, label, mix, roots and salts leave, the bench's ceiling apart. */
  static FeedStrength meant(BenchDraft draft, CupDraft cup) {
    FeedingRules rules = draft.bench.feeding();
    Duration interval = draft.interval(draft.supply().feed());
    StageFeed stage =
        StageFeed.at(rules, cup.setup.stage(), cup.plant.stageSince(), draft.at, interval);
    Feed feed = draft.bench.feeds().get(String.valueOf(draft.supply().feed()));
    double labelNMgPerL = feed == null ? 0.0 : LabelRate.of(feed).elementsMg(1.0, 1000.0).nMg();
    FeedStrength own = FeedStrength.of(stage, labelNMgPerL);
    if (own.strength() <= 0.0) {
      return own;
    }
    double rootsC = draft.rootsC(cup);
    double cool = FeedStrength.coolRootsPart(rootsC, draft.bench.climate().coldC());
    double saltMsPerCm = cup.doses.salts().atCapacityMsPerCm(cup.capacityMl());
    double salt = SaltBalance.feedPart(saltMsPerCm);
    FeedStrength spread = spread(draft, cup, own, interval);
    return (feed == null ? spread : stock(cup, feed, own, spread))
        .lesser(FeedStrength.Cap.COOL, cool * own.strength(), rootsC, FeedStrength.WARM_ROOTS_C)
        .lesser(
            FeedStrength.Cap.SALT, salt * own.strength(), saltMsPerCm, SaltBalance.MOST_MS_PER_CM)
        .atLeast(rules.floor(), own.strength());
  }

  private static FeedStrength spread(
      BenchDraft draft, CupDraft cup, FeedStrength own, Duration interval) {
    double refilledPart = cup.frame.lines().due() - cup.frame.lines().refill();
    double everyDays =
        cup.now.rateKnown() && cup.now.rateGPerH() > 0.0
            ? refilledPart * cup.availableMl() / (cup.now.rateGPerH() * 24.0)
            : PredictedUse.days(cup.setup.stage());
    if (cup.doses.habit().known()) {
      refilledPart = cup.doses.habit().refilledPart();
      everyDays = cup.doses.habit().everyDays();
    }
    double target = draft.bench.feeding().target().getOrDefault(cup.setup.stage(), 0.0);
    double intervalDays = interval.toMillis() / 86_400_000.0;
    double strength = FeedStrength.spread(target, everyDays, intervalDays, refilledPart);
    return own.lesser(FeedStrength.Cap.LABEL, strength, own.strength(), strength);
  }

  /**
   * What the mix lacks of its own strength, over the room that is left: once it holds that, no more
   * comes than the plant has taken.
   */
  private static FeedStrength stock(CupDraft cup, Feed feed, FeedStrength own, FeedStrength soFar) {
    double heldMl = cup.doses.salts().labelMl(feed);
    double lacksMl = own.strength() * cup.capacityMl() - heldMl;
    double roomMl = Math.max(Limits.LEAST_PASS_ML, cup.now.known() ? cup.roomMl() : 0.0);
    double labelNMgPerL = LabelRate.of(feed).elementsMg(1.0, 1000.0).nMg();
    return soFar.lesser(
        FeedStrength.Cap.STOCK,
        Math.max(0.0, lacksMl) / roomMl,
        heldMl / cup.capacityMl() * labelNMgPerL,
        own.strength() * labelNMgPerL);
  }
}
