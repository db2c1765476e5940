package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;

/**
 * A cup's water since its last refill that ended at its line or at capacity.
 *
 * @param at when that was
 * @param roomMl what was still missing to the line then
 * @param lostG on the days since that are over, each at most twice what was foretold
 * @param dayAt when the day that runs began
 * @param dayLostG lost in it
 * @param dayForetoldG what rate, light and air foretold for it
 * @param pumpedMl ordered since; of what its weight has judged, what that showed
 * @param pouredMl by a person since
 */
public record SinceFull(
    Instant at,
    double roomMl,
    double lostG,
    Instant dayAt,
    double dayLostG,
    double dayForetoldG,
    double pumpedMl,
    double pouredMl) {
  private static final Duration DAY = Duration.ofHours(24);

  static SinceFull now(Instant at, double roomMl) {
    return new SinceFull(at, roomMl, 0.0, at, 0.0, 0.0, 0.0, 0.0);
  }

  /** All that counts as lost, g, 0 or more. */
  public double countedG() {
    return Math.max(0.0, lostG + dayG());
  }

  private double dayG() {
    return Math.min(dayLostG, WaterAccount.MOST_TIMES * dayForetoldG);
  }

  SinceFull lost(Instant now, double moreG, double foretoldG) {
    boolean over = !now.isBefore(dayAt.plus(DAY));
    return new SinceFull(
        at,
        roomMl,
        over ? lostG + dayG() : lostG,
        over ? now : dayAt,
        over ? moreG : dayLostG + moreG,
        over ? foretoldG : dayForetoldG + foretoldG,
        pumpedMl,
        pouredMl);
  }

  /** After its weight has judged passes: what did not arrive is not in the cup. */
  SinceFull arrived(double orderedMl, double cameMl) {
    return new SinceFull(
        at,
        roomMl,
        lostG,
        dayAt,
        dayLostG,
        dayForetoldG,
        Math.max(0.0, pumpedMl - orderedMl + Math.max(0.0, cameMl)),
        pouredMl);
  }

  SinceFull given(double ml, boolean byHand) {
    return new SinceFull(
        at,
        roomMl,
        lostG,
        dayAt,
        dayLostG,
        dayForetoldG,
        pumpedMl + (byHand ? 0.0 : ml),
        Math.max(0.0, pouredMl + (byHand ? ml : 0.0)));
  }
}
