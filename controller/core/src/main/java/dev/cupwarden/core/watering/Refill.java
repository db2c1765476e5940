package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;
import java.util.Set;

/**
 * A watering under way: from the first pass until the refill line is reached.
 *
 * @param cause why it began
 * @param startedAt when
 * @param budgetMl what it may take in all: infinite unless halved or asked for in mL
 * @param orderedMl put out so far
 * @param strengthAsked strength that a person asked for; NaN where the program decides
 * @param lifts limits that a person lifted for it
 * @param orderId of the order behind it; null where there is none
 */
public record Refill(
    Cause cause,
    Instant startedAt,
    double budgetMl,
    double orderedMl,
    double strengthAsked,
    Set<String> lifts,
    String orderId) {

  /** Past this a refill is over: what is still missing waits for the next. Our choice. */
  public static final Duration LONGEST = Duration.ofHours(6);

  /** What it may still take by its own budget, mL. */
  public double leftMl() {
    return budgetMl - orderedMl;
  }

  public Refill plus(double ml) {
    return new Refill(
        cause, startedAt, budgetMl, orderedMl + ml, strengthAsked, lifts, orderId);
  }

  /** The same with no more than that in all. */
  public Refill within(double newBudgetMl) {
    return new Refill(
        cause, startedAt, newBudgetMl, orderedMl, strengthAsked, lifts, orderId);
  }
}
