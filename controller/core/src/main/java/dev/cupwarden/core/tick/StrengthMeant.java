package dev.cupwarden.core.tick;

import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.watering.PredictedUse;
import java.time.Duration;

/** How strong a cup's water is meant to be: what a person asked, else what stage and habit want. */
final class StrengthMeant {
  private StrengthMeant() {}

  /**
   * @param asked what a person asked for; NaN where the program decides
   */
  static double of(BenchDraft draft, CupDraft cup, double asked) {
    if (!Double.isNaN(asked)) {
      return asked;
    }
    Duration interval = draft.interval(draft.supply().feed());
    double target =
        FeedStrength.target(
            draft.bench.feeding(), cup.setup.stage(), cup.plant.stageSince(), draft.at, interval);
    double refilledPart = cup.frame.lines().due() - cup.frame.lines().refill();
    double everyDays =
        cup.now.rateKnown() && cup.now.rateGPerH() > 0.0
            ? refilledPart * cup.availableMl() / (cup.now.rateGPerH() * 24.0)
            : PredictedUse.days(cup.setup.stage());
    if (cup.doses.habit().known()) {
      refilledPart = cup.doses.habit().refilledPart();
      everyDays = cup.doses.habit().everyDays();
    }
    double intervalDays = interval.toMillis() / 86_400_000.0;
    return FeedStrength.of(draft.bench.feeding(), target, everyDays, intervalDays, refilledPart)
        * FeedStrength.coolRootsPart(draft.rootsC(cup), draft.bench.climate().coldC());
  }
}
