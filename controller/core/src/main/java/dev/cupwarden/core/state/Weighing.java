package dev.cupwarden.core.state;

import dev.cupwarden.core.estimate.Rest;
import java.time.Instant;

/**
 * What is kept of one cup between a person's word that it has drained and the weight that this is
 * learned from, and of what speaks against the capacity that it has.
 *
 * @param asked the order that waits for a weight at rest; null where none does
 * @param beyondSince at rest beyond its wet line since then; null where it is not
 * @param knownSince first look at this cup in this vessel; null before it
 */
public record Weighing(Asked asked, Instant beyondSince, Instant knownSince) {
  public static final Weighing NONE = new Weighing(null, null, null);

  /**
   * An order that waits.
   *
   * @param orderId its name
   * @param at when it was given
   * @param sure whether a weight far from what was known is learned all the same
   * @param rest what its next reading is held against
   * @param read whether it was read since
   */
  public record Asked(String orderId, Instant at, boolean sure, Rest rest, boolean read) {
    public Asked next(Rest nextRest) {
      return new Asked(orderId, at, sure, nextRest, true);
    }
  }

  public Weighing asking(Asked order) {
    return new Weighing(order, beyondSince, knownSince);
  }

  public Weighing beyond(Instant since) {
    return new Weighing(asked, since, knownSince);
  }

  public Weighing known(Instant at) {
    return knownSince == null ? new Weighing(asked, beyondSince, at) : this;
  }
}
