package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.Cover;
import java.time.Instant;

/**
 * Whether a cup is on the bench, and under what, by a person's word.
 *
 * @param awaySince when it was taken off; null if it is there
 * @param away whether it is off the bench
 * @param backAt when it came back last; null if it never was away
 * @param cover over it
 */
public record CupPresence(Instant awaySince, boolean away, Instant backAt, Cover cover) {
  public static final CupPresence NEVER_AWAY = new CupPresence(null, false, null, Cover.NONE);

  /** What an older journal does not know is null in it: there were no covers. */
  public CupPresence {
    cover = cover == null ? Cover.NONE : cover;
  }

  public CupPresence with(Cover next) {
    return new CupPresence(awaySince, away, backAt, next);
  }

  /** Taken off the bench; told again, it is away since it was told first. */
  public CupPresence takenAway(Instant at) {
    return new CupPresence(away ? awaySince : at, true, backAt, cover);
  }

  /** Put back. */
  public CupPresence putBack(Instant at) {
    return new CupPresence(null, false, at, cover);
  }
}
