package dev.cupwarden.core.state;

import dev.cupwarden.core.limits.Hold;
import dev.cupwarden.core.setup.BenchChange;
import java.util.List;

/**
 * What people ordered of the bench.
 *
 * @param hold the bench's; null where there is none
 * @param ids of orders already taken or refused, oldest first
 * @param done what people may still take back
 * @param watchOnly whether the bench is only watched; false in an older journal
 * @param changes of the bench file, one for each key, in the order in which they were given
 */
public record BenchOrders(
    Hold hold, List<String> ids, DoneActs done, boolean watchOnly, List<BenchChange> changes) {
  public static final BenchOrders NONE =
      new BenchOrders(null, List.of(), DoneActs.NONE, false, List.of());

  /** An older journal does not know what was done, and nothing of it can be taken back. */
  public BenchOrders {
    done = done == null ? DoneActs.NONE : done;
    changes = changes == null ? List.of() : List.copyOf(changes);
  }

  /** The same of a bench that is only watched, or that is watered. */
  public BenchOrders watchOnly(boolean watched) {
    return new BenchOrders(hold, ids, done, watched, changes);
  }

  /** The same with these changes of the bench file. */
  public BenchOrders changes(List<BenchChange> others) {
    return new BenchOrders(hold, ids, done, watchOnly, others);
  }
}
