package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * Whether a cup that is said to have drained has come to rest: whether one reading bears out
 * another.
 *
 * <p>One reading never shows rest: it may be the first after the cup was put back, dripping. The
 * next one that agrees does, some minutes later. Most of what drains has drained in 10 to 15 min
 * (Purdue's pot method), so what drips within {@value #LEAST_APART_MIN} min or more and is less
 * than {@value #LEAST_G} g leaves some 1.5 g to come: as good as a weighing is. A noisier or
 * coarser scale cannot tell so little, so its own noise widens that. Where nobody reads again
 * within the half hour that a person waits (a kitchen scale used once a day, a line typed by hand,
 * the first line of all) no second reading will come, and the person's word stands for it.
 *
 * @param markG an earlier reading, as the scale showed it, g; NaN: none yet
 * @param markAt when that was; null: none yet
 */
public record Rest(double markG, Instant markAt) {
  /** Nothing was read that could bear a reading out. */
  public static final Rest UNKNOWN = new Rest(Double.NaN, null);

  /** For so long a weight at rest is waited for, min; an older reading bears nothing out. */
  public static final double WAIT_MIN = 30;

  private static final double LEAST_APART_MIN = 4;
  private static final double LEAST_G = 0.5;

  /**
   * Two readings of one load differ by more than three of their standard deviations one time in
   * 400.
   */
  private static final double SDS = 3;

  /** Before the first reading that is judged, with the one before that. */
  public static Rest since(double readG, Instant readAt) {
    return readAt == null || Double.isNaN(readG) ? UNKNOWN : new Rest(readG, readAt);
  }

  /** Whether that reading agrees with the mark; drying meanwhile is no dripping. */
  public boolean at(Instant now, double readG, double rateGPerH, double readingSdG) {
    return apart(now) && agrees(now, readG, rateGPerH, readingSdG);
  }

  /** After a reading that did not show rest. */
  public Rest next(Instant now, double readG, double rateGPerH, double readingSdG) {
    boolean keeps = !apart(now) && agrees(now, readG, rateGPerH, readingSdG);
    return keeps ? this : new Rest(readG, now);
  }

  private boolean apart(Instant now) {
    return markAt != null && Elapsed.minutes(markAt, now) >= LEAST_APART_MIN;
  }

  private boolean agrees(Instant now, double readG, double rateGPerH, double readingSdG) {
    if (markAt == null || Elapsed.minutes(markAt, now) > WAIT_MIN) {
      return false;
    }
    double driedG = Math.max(0, rateGPerH) * Elapsed.hours(markAt, now);
    double leastG = Math.max(LEAST_G, SDS * Math.sqrt(2) * readingSdG);
    return Math.abs(markG - driedG - readG) <= leastG;
  }
}
