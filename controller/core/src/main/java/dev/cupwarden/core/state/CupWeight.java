package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.Misplaced;
import dev.cupwarden.core.estimate.Reckoning;
import java.time.Instant;
import java.util.Objects;

/**
 * What a cup's scale tells of it, and what is reckoned while that tells nothing.
 *
 * @param estimate what its weight tells
 * @param lastReadG what its scale showed last; NaN if it was never read
 * @param distrustedSince null while its scale is trusted
 * @param weighing what speaks of its capacity besides its weight
 * @param reckoning of its water while its weight is not to be had
 * @param misplaced in whose place it stands
 */
public record CupWeight(
    EstimateState estimate,
    double lastReadG,
    Instant distrustedSince,
    Weighing weighing,
    Reckoning reckoning,
    Misplaced misplaced) {
  public static final CupWeight UNSEEN =
      new CupWeight(
          EstimateState.fresh(), Double.NaN, null, Weighing.NONE, Reckoning.NONE, Misplaced.NONE);

  /** What an older journal does not know is null in it, and nothing is known of it. */
  public CupWeight {
    weighing = weighing == null ? Weighing.NONE : weighing;
    reckoning = reckoning == null ? Reckoning.NONE : reckoning;
    misplaced = misplaced == null ? Misplaced.NONE : misplaced;
  }

  public CupWeight with(EstimateState next) {
    return new CupWeight(next, lastReadG, distrustedSince, weighing, reckoning, misplaced);
  }

  public CupWeight with(Weighing next) {
    return new CupWeight(estimate, lastReadG, distrustedSince, next, reckoning, misplaced);
  }

  public CupWeight with(Reckoning next) {
    return new CupWeight(estimate, lastReadG, distrustedSince, weighing, next, misplaced);
  }

  public CupWeight with(Misplaced next) {
    return new CupWeight(estimate, lastReadG, distrustedSince, weighing, reckoning, next);
  }

  /**
   * After a look at its scale.
   *
   * @param readG what it showed; NaN if it was not read
   */
  public CupWeight looked(EstimateState next, double readG) {
    double shownG = Double.isNaN(readG) ? lastReadG : readG;
    return new CupWeight(next, shownG, distrustedSince, weighing, reckoning, misplaced);
  }

  /** Where a step that its scale showed was never the cup's own. */
  public CupWeight without(double stepG) {
    return new CupWeight(
        estimate.without(stepG), lastReadG - stepG, null, weighing, reckoning, misplaced);
  }

  /** Not trusted from then on. */
  public CupWeight distrusted(Instant since) {
    return new CupWeight(estimate, lastReadG, since, weighing, reckoning, misplaced);
  }

  /** Trusted, or not since the first time that it was not. */
  public CupWeight judged(boolean trusted, Instant at) {
    Instant first = distrustedSince == null ? at : distrustedSince;
    Instant since = trusted ? null : first;
    return Objects.equals(since, distrustedSince) ? this : distrusted(since);
  }

  /** In another vessel or mix: nothing that was weighed there holds here. */
  public CupWeight repotted() {
    return UNSEEN.distrusted(distrustedSince).with(misplaced);
  }

  /**
   * Of a cup that the grower has set up anew: nothing of it is known, and an order still waits for
   * its drained weight.
   */
  CupWeight setUpAnew() {
    return UNSEEN.with(Weighing.NONE.asking(weighing.asked()));
  }
}
