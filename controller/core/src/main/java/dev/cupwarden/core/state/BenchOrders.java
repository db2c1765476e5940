package dev.cupwarden.core.state;

import dev.cupwarden.core.limits.Hold;
import java.util.List;

/**
 * What people ordered of the bench.
 *
 * @param hold the bench's; null where there is none
 * @param ids of orders already taken or refused, oldest first
 * @param done what people may still take back
 * @param watchOnly whether the bench is only watched; false in an older journal
 */
public record BenchOrders(Hold hold, List<String> ids, DoneActs done, boolean watchOnly) {
  public static final BenchOrders NONE = new BenchOrders(null, List.of(), DoneActs.NONE, false);

  /** An older journal does not know what was done, and nothing of it can be taken back. */
  public BenchOrders {
    done = done == null ? DoneActs.NONE : done;
  }

  /** The same of a bench that is only watched, or that is watered. */
  public BenchOrders watchOnly(boolean watched) {
    return new BenchOrders(hold, ids, done, watched);
  }
}
