package dev.cupwarden.app.loop;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.orders.OrderReader;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;

/**
 * Which of the waiting orders a tick takes: first those that stop water, all of them, then others
 * in the order they came, for about 50 ms of work; the rest wait for the next tick. What an order
 * costs is measured: most of it is the journal's, and differs from board to board.
 */
final class OrderBatch {
  /** Our choice: a person gives a few orders, and a flood must not hold up the readings. */
  private static final Duration WORK = Duration.ofMillis(50);

  /** Taken in any case, so that a busy board gets on as well. */
  private static final int LEAST = 8;

  /** On a small board, as long as nothing was measured. Our choice. */
  private static final double FIRST_GUESS_NANOS = 1e6;

  private double nanosAnOrder = FIRST_GUESS_NANOS;
  private double quietNanos = Double.NaN;

  List<JsonNode> of(List<JsonNode> waiting) {
    List<JsonNode> turn = new ArrayList<>();
    List<JsonNode> others = new ArrayList<>();
    waiting.forEach(order -> (OrderReader.stopsWater(order) ? turn : others).add(order));
    turn.addAll(others.subList(0, Math.min(others.size(), most())));
    return turn;
  }

  private int most() {
    return (int) Math.max(LEAST, WORK.toNanos() / nanosAnOrder);
  }

  /** What deciding and writing took in a tick with so many orders. */
  void took(int orders, long nanos) {
    if (orders == 0) {
      quietNanos = Double.isNaN(quietNanos) ? nanos : 0.8 * quietNanos + 0.2 * nanos;
    } else {
      double quiet = Double.isNaN(quietNanos) ? 0 : quietNanos;
      double each = Math.max(0, nanos - quiet) / orders;
      nanosAnOrder = Math.max(1e3, 0.5 * nanosAnOrder + 0.5 * each);
    }
  }
}
