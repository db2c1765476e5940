package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;
import java.util.Set;

/**
 * A watering under way: from the first pass until the refill line is reached.
 *
 * @param cause why it began
 * @param startedAt when
 * @param budgetMl what it may take in all; infinite where only the refill line ends it
 * @param unseenMl what it may take until a pass was seen on the scale; infinite once one was
 * @param orderedMl put out so far
 * @param strengthAsked strength that a person asked for; NaN where the program decides
 * @param lifts limits that a person lifted for it
 * @param orderId of the order behind it; null where there is none
 * @param toMany whether that order names several cups
 */
public record Refill(
    Cause cause,
    Instant startedAt,
    double budgetMl,
    double unseenMl,
    double orderedMl,
    double strengthAsked,
    Set<String> lifts,
    String orderId,
    boolean toMany) {

  /** Past this a refill is over: what is still missing waits for the next. Our choice. */
  public static final Duration LONGEST = Duration.ofHours(6);

  /** A flush is given in passes of at most so much, mL: common practice, a fluid ounce. */
  public static final double FLUSH_PASS_ML = 30.0;

  /**
   * Between two passes of a flush there is no more time than lets the last one run in, so that 700
   * mL are given within two hours: our choice.
   */
  public static final Duration FLUSH_SOAK = Duration.ofMinutes(5);

  /** One that a person asked for. */
  public static Refill byHand(
      Cause cause, Instant at, double ml, double strengthAsked, Set<String> lifts, String orderId) {
    return new Refill(
        cause, at, ml, Double.POSITIVE_INFINITY, 0.0, strengthAsked, lifts, orderId, false);
  }

  /** The same as one cup's part of an order to several. */
  public Refill amongMany() {
    return new Refill(
        cause, startedAt, budgetMl, unseenMl, orderedMl, strengthAsked, lifts, orderId, true);
  }

  /** What it may still take by its own budget, mL. */
  public double leftMl() {
    return Math.min(budgetMl, unseenMl) - orderedMl;
  }

  /** Whether it waits for a pass to be seen before it takes the whole. */
  public boolean halved() {
    return unseenMl < Double.POSITIVE_INFINITY;
  }

  /** The same with so much more put out. */
  public Refill plus(double ml) {
    return with(budgetMl, unseenMl, orderedMl + ml);
  }

  /** The same with no more than that in all. */
  public Refill within(double mostMl) {
    return with(mostMl, unseenMl, orderedMl);
  }

  /** The same with no more than that until a pass was seen. */
  public Refill halfUntilSeen(double mostMl) {
    return with(budgetMl, mostMl, orderedMl);
  }

  /** The same once a pass was seen. */
  public Refill whole() {
    return with(budgetMl, Double.POSITIVE_INFINITY, orderedMl);
  }

  private Refill with(double budget, double unseen, double ordered) {
    return new Refill(
        cause, startedAt, budget, unseen, ordered, strengthAsked, lifts, orderId, toMany);
  }
}
