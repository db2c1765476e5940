package dev.cupwarden.core;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import java.util.List;

/** One tick of a bench: readings and orders in, the next state, passes, alerts and receipts out. */
public final class Tick {
  private final Bench bench;

  public Tick(Bench bench) {
    this.bench = bench;
  }

  /** A bench of which nothing has been seen yet. */
  public BenchState fresh() {
    return new BenchState(null);
  }

  /** The state after what was seen, and what to do now. */
  public Step step(BenchState state, Observation seen) {
    throw new UnsupportedOperationException("bench " + bench.name() + " " + state + " " + seen);
  }

  /** What the wire says of each cup in that state, in order of name. */
  public List<CupStatus> statuses(BenchState state) {
    throw new UnsupportedOperationException("bench " + bench.name() + " " + state);
  }

  /**
   * What one tick came to.
   *
   * @param state where the bench is now; all passes count as given in it
   * @param passes to give now, in this order
   * @param advice the same and all else, as told to others
   */
  public record Step(BenchState state, List<AllowedPass> passes, Advice advice) {}
}
