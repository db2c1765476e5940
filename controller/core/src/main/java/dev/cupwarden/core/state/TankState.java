package dev.cupwarden.core.state;

import dev.cupwarden.core.setup.Tank;
import java.time.Instant;

/**
 * What a tank holds.
 *
 * @param feed what is mixed into it; null for plain water
 * @param strength label strength of it
 * @param leftMl infinite where nothing was ever said of it
 * @param mixedAt when it was last filled; null if never said
 * @param readAt when its content was last read; null if never
 */
public record TankState(
    String feed, double strength, double leftMl, Instant mixedAt, Instant readAt) {
  public static TankState of(Tank tank) {
    return new TankState(
        tank.feed().orElse(null), tank.strength(), Double.POSITIVE_INFINITY, null, null);
  }

  public boolean plain() {
    return feed == null || strength <= 0.0;
  }

  public TankState read(double ml, Instant at) {
    return new TankState(feed, strength, ml, mixedAt, at);
  }

  /** The same without a gauge. */
  public TankState unread() {
    return new TankState(feed, strength, leftMl, mixedAt, null);
  }

  /**
   * As if that had not been filled anew: what it held before, less what was drawn since. A gauge
   * that was read since knows better how much there is.
   *
   * @param filledMl what was said to be in it
   */
  public TankState unfilled(TankState before, double filledMl, Instant filledAt) {
    boolean gauged = readAt != null && readAt.isAfter(filledAt);
    double drawnMl = Math.max(0.0, filledMl - leftMl);
    double nowMl = gauged ? leftMl : Math.max(0.0, before.leftMl - drawnMl);
    return new TankState(before.feed, before.strength, nowMl, before.mixedAt, readAt);
  }

  public TankState less(double ml) {
    return new TankState(feed, strength, Math.max(0.0, leftMl - ml), mixedAt, readAt);
  }
}
