package dev.cupwarden.core.state;

import java.time.Instant;

/**
 * Whether a cup is on the bench, by a person's word.
 *
 * @param awaySince when it was taken off; null if it is there
 * @param away whether it is off the bench
 * @param backAt when it came back last; null if it never was away
 */
public record CupPresence(Instant awaySince, boolean away, Instant backAt) {
  public static final CupPresence NEVER_AWAY = new CupPresence(null, false, null);

  /** Taken off the bench; told again, it is away since it was told first. */
  public CupPresence takenAway(Instant at) {
    return new CupPresence(away ? awaySince : at, true, backAt);
  }

  /** Put back. */
  public CupPresence putBack(Instant at) {
    return new CupPresence(null, false, at);
  }
}
