package dev.cupwarden.core.estimate;

import java.time.Duration;
import java.time.Instant;

/**
 * A cup that stands in another's place: whose, what it weighed when it was put there, and what
 * since speaks for its being back.
 *
 * @param partner the cup that stands in its place, or did; null: none ever did
 * @param since when it was seen to have been put there; null: it stands in its own place
 * @param ownG its own weight then, gross grams
 * @param steppedAt when its scale last showed a lift, or a jump that drying does not explain; null:
 *     not since; in its own place again: since when
 * @param fits looks running at which its scale showed what the cup itself should weigh
 */
public record Misplaced(String partner, Instant since, double ownG, Instant steppedAt, int fits) {
  /** Of a cup in its own place. */
  public static final Misplaced NONE = new Misplaced(null, null, 0.0, null, 0);

  /** Two cups are put back within this time of one another, as they were exchanged. */
  private static final Duration TOGETHER = Duration.ofMinutes(30);

  /** One look may be chance. */
  private static final int ENOUGH_FITS = 2;

  /** Just put in the place of that other cup. */
  public static Misplaced of(String partner, Instant since, double ownG) {
    return new Misplaced(partner, since, ownG, null, 0);
  }

  /** Whether it stands in another's place. */
  public boolean on() {
    return since != null;
  }

  /** Whether it stands in the place of that cup. */
  public boolean inPlaceOf(String cup) {
    return on() && cup.equals(partner);
  }

  /** In its own place again, as was seen or told at that moment. */
  public Misplaced back(Instant at) {
    return new Misplaced(partner, null, 0.0, at, 0);
  }

  /** Whether it came back from that cup's place so lately that its steps may still show. */
  public boolean justBackFrom(String cup, Instant at) {
    return cup.equals(partner) && justBack(at);
  }

  /** Whether it came back so lately, from whichever cup's place. */
  public boolean justBack(Instant at) {
    return !on() && steppedAt != null && Duration.between(steppedAt, at).compareTo(TOGETHER) <= 0;
  }

  /** Handled once more: what its scale shows from now on counts anew. */
  public Misplaced stepped(Instant at) {
    return new Misplaced(partner, since, ownG, at, 0);
  }

  /** After one more look. */
  public Misplaced looked(boolean fitting) {
    return new Misplaced(partner, since, ownG, steppedAt, fitting ? fits + 1 : 0);
  }

  /** Whether it was handled again. */
  public boolean handled() {
    return on() && steppedAt != null;
  }

  /** Whether both were handled again, at about the same time. */
  public boolean handledWith(Misplaced other) {
    return handled()
        && other.handled()
        && Duration.between(steppedAt, other.steppedAt).abs().compareTo(TOGETHER) <= 0;
  }

  /** Whether its scale has shown its own weight often enough. */
  public boolean fitsWell() {
    return fits >= ENOUGH_FITS;
  }
}
