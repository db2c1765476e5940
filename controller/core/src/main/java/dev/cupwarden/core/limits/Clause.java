package dev.cupwarden.core.limits;

import dev.cupwarden.core.watering.Cause;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/**
 * One test of a row of {@link LimitCode}, and which passes it binds: a column, so that no limit
 * asks who is asking.
 *
 * @param passedBy causes that go through it
 * @param unproposed whether it binds where nothing is proposed, too
 */
record Clause(Limit limit, LimitCode.Effect effect, Set<Cause> passedBy, boolean unproposed) {
  /** Into a jug or to waste, so that nothing reaches a cup. */
  private static final Set<Cause> PAST_CUPS = EnumSet.of(Cause.PRIME, Cause.RINSE);

  /** One that binds whatever reaches a cup. */
  static Clause veto(Limit limit) {
    return new Clause(limit, LimitCode.Effect.VETO, PAST_CUPS, true);
  }

  /** One that binds whatever reaches a cup. */
  static Clause cap(Limit limit) {
    return new Clause(limit, LimitCode.Effect.CAP, PAST_CUPS, true);
  }

  /** The same, for water that reaches no cup, too. */
  Clause evenPastCups() {
    return new Clause(limit, effect, EnumSet.noneOf(Cause.class), unproposed);
  }

  /** The same, but for those. */
  Clause passedBy(Cause... more) {
    Set<Cause> all = EnumSet.copyOf(List.of(more));
    all.addAll(passedBy);
    return new Clause(limit, effect, all, unproposed);
  }

  /** The same for those alone. */
  Clause onlyFor(Cause... those) {
    return new Clause(limit, effect, EnumSet.complementOf(EnumSet.copyOf(List.of(those))), false);
  }

  boolean binds(Cause cause) {
    return cause == null ? unproposed : !passedBy.contains(cause);
  }
}
