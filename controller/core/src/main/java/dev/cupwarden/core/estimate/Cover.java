package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * A dome or a bag over a cup, by a person's word, and what a scale shows of it. A step in weight
 * within ten minutes of that word, before or after it, is the cover's and not water's; where no
 * reading came in that time, the step that the next one shows. What the scale shows of a cover is
 * taken off each reading, so that nothing else knows of it. A known cover that is lifted for an
 * hour and put back is seen by its own mass.
 *
 * @param on whether the cup is covered, by the last word
 * @param toldAt when that was said; null where the bench file says it, or nobody ever did
 * @param heldG what is taken off each reading, g, besides {@code massG} while the cover rests on
 *     the cup
 * @param massG what the cover weighs on the scale, g; 0 where it rests beside the cup, is too light
 *     to tell, or is not known
 * @param rests whether it rests on the cup now
 * @param offSince since when it has been off the scale though the cup counts as covered; null where
 *     it is not
 * @param read whether the scale was read since the last word
 * @param moving whether the last reading within the time of a cover showed a step
 * @param step the last step that was taken for water or handling; null where there was none
 */
public record Cover(
    boolean on,
    Instant toldAt,
    double heldG,
    double massG,
    boolean rests,
    Instant offSince,
    boolean read,
    boolean moving,
    Step step) {
  /** An open cup of which nobody said anything. */
  public static final Cover NONE = new Cover(false, null, 0.0, 0.0, false, null, true, false, null);

  /** Covered from the start, as the bench file says; its scale may show the cover, or not. */
  public static final Cover FROM_THE_START = NONE.over(true);

  /** So long before and after the word a step is the cover's. The grower's rule. */
  public static final double STEP_WITHIN_MIN = 10.0;

  /** A hand that is still at it then is at something else: our choice. */
  private static final double MOVING_AT_MOST_MIN = 20.0;

  /** A lighter one is not told from a spill or a fly; it is taken off all the same. Our choice. */
  private static final double LEAST_MASS_G = 3.0;

  /** A glass bell over a cup; more is another cup: our choice. */
  private static final double MOST_MASS_G = 500.0;

  /**
   * A step that was taken for water or handling.
   *
   * @param gainG above 0: a rise
   * @param passBefore when the last pass was given before it; null where there was none
   */
  public record Step(Instant at, double gainG, Instant passBefore) {}

  private Cover over(boolean covered) {
    return new Cover(covered, null, heldG, massG, rests, null, read, moving, step);
  }

  /** As the edited bench file says, where the grower changed that there. */
  public Cover byFile(boolean covered) {
    return new Cover(covered, null, heldG, massG, rests, null, true, false, step);
  }

  /** In another vessel: what its scale showed there says nothing here. */
  public Cover repotted() {
    return new Cover(on, toldAt, 0.0, 0.0, false, null, true, false, null);
  }

  /** After a person's word; said again, it changes nothing. */
  public Cover told(boolean covered, Instant at) {
    double stillG = rests ? massG : 0.0;
    return covered == on
        ? this
        : new Cover(covered, at, heldG, stillG, rests, null, false, false, step);
  }

  /**
   * The step that came up to ten minutes before that word and goes with it; null where there is
   * none.
   *
   * @param covered what is said
   */
  public Step explains(boolean covered, Instant at) {
    boolean fits =
        step != null
            && covered != on
            && (covered ? step.gainG() > 0.0 : step.gainG() < 0.0 && massG == 0.0)
            && Elapsed.minutes(step.at(), at) <= STEP_WITHIN_MIN;
    return fits ? step : null;
  }

  /** With that step of the cup's weight known as the cover's. */
  public Cover explained(double gainG) {
    return shifted(gainG).stepped(null).awaiting(true, false);
  }

  /** With a step that was taken for something else. */
  public Cover stepped(Step next) {
    return new Cover(on, toldAt, heldG, massG, rests, offSince, read, moving, next);
  }

  /** What is taken off a reading, g. */
  public double offG() {
    return heldG + (rests ? massG : 0.0);
  }

  /**
   * After a reading, before anything else looks at it.
   *
   * @param readG as the scale shows it
   * @param leastG what the cup's own weight must at least be; less is no cup on its scale
   * @param expectedG what the cup itself should show now; NaN where nothing is known of it
   * @param limitG how far off a reading of it may be
   */
  public Cover seen(Instant at, double readG, double leastG, double expectedG, double limitG) {
    double stepG = readG - offG() - expectedG;
    boolean lifted = readG < leastG;
    if (Double.isNaN(stepG) || lifted) {
      return this;
    }
    if (awaited(at)) {
      boolean moved = Math.abs(stepG) > limitG && Math.abs(stepG) < MOST_MASS_G;
      Cover next = moved ? shifted(stepG) : this;
      boolean answered = read || moved || toldAt.isBefore(at);
      return next.awaiting(answered, moved);
    }
    return massG > 0.0 && Math.abs(stepG) > Math.max(limitG, massG / 2.0)
        ? byMass(stepG, at)
        : this;
  }

  private boolean awaited(Instant at) {
    if (toldAt == null) {
      return false;
    }
    double minutes = Elapsed.minutes(toldAt, at);
    return minutes <= STEP_WITHIN_MIN || !read || (moving && minutes <= MOVING_AT_MOST_MIN);
  }

  private Cover awaiting(boolean answered, boolean moved) {
    return new Cover(on, toldAt, heldG, massG, rests, offSince, answered, moved, step);
  }

  /** Off for its hour, or on again: as nearly its own mass as not. */
  private Cover byMass(double stepG, Instant at) {
    boolean off = rests && stepG < 0.0 && -stepG < 1.5 * massG;
    boolean back = !rests && on && stepG > 0.0 && stepG < 1.5 * massG;
    return off
        ? new Cover(on, toldAt, heldG, on ? massG : 0.0, false, on ? at : null, read, moving, step)
        : back ? new Cover(on, toldAt, heldG, massG, true, null, read, moving, step) : this;
  }

  /** What the scale shows more, or less, is the cover. */
  private Cover shifted(double stepG) {
    if (!on) {
      // What it weighed may have counted as the cup's own: then that stays so.
      double left = rests ? massG + stepG : stepG;
      double stays = Math.abs(left) < LEAST_MASS_G && rests ? 0.0 : left;
      return new Cover(false, toldAt, heldG + stays, 0.0, false, null, read, moving, step);
    }
    double now = (rests ? massG : 0.0) + stepG;
    return now >= LEAST_MASS_G
        ? new Cover(true, toldAt, heldG, now, true, null, read, moving, step)
        : new Cover(true, toldAt, heldG + now, 0.0, false, null, read, moving, step);
  }
}
