package dev.cupwarden.core.state;

import dev.cupwarden.core.limits.Hold;
import java.util.List;

/**
 * What people ordered of the bench.
 *
 * @param hold the bench's; null where there is none
 * @param ids of orders already taken or refused, oldest first
 * @param done what people may still take back
 */
public record BenchOrders(Hold hold, List<String> ids, DoneActs done) {
  public static final BenchOrders NONE = new BenchOrders(null, List.of(), DoneActs.NONE);

  /** An older journal does not know what was done, and nothing of it can be taken back. */
  public BenchOrders {
    done = done == null ? DoneActs.NONE : done;
  }
}
