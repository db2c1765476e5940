package dev.cupwarden.core.estimate;

import java.time.Instant;

/**
 * Something that happened to a cup, as its weight tells it. {@code beforeG} is the gross weight
 * that was expected at that moment had nothing happened.
 */
public sealed interface WeightEvent {
  /** When it was seen. */
  Instant at();

  /** The cup rose after passes of our own. */
  record OwnDose(Instant at, double beforeG, double gainG, double orderedMl)
      implements WeightEvent {}

  /** The cup rose with nothing ordered, and stayed risen. */
  record HandWatering(Instant at, double beforeG, double gainG) implements WeightEvent {}

  /** The scale reads about empty: the cup is off it. */
  record Lifted(Instant at, double beforeG) implements WeightEvent {}

  /**
   * The cup stands on its scale again, or was moved between two looks.
   *
   * @param changeG its weight against the forecast: what it got, or lost, meanwhile
   */
  record Returned(Instant at, double beforeG, double changeG) implements WeightEvent {}

  /** Something leant on the scale for a while and went away. */
  record Leaned(Instant at, double beforeG, double peakG) implements WeightEvent {}

  /**
   * Something that cannot be the cup stands in its stead, or the cup stands there again.
   *
   * @param beforeG what stood there, g
   * @param afterG what stands there now, g
   */
  record Exchanged(Instant at, double beforeG, double afterG) implements WeightEvent {}

  /** The cup was watered to excess, has drained, and rests at its capacity. */
  record Drained(Instant at, double capacityG) implements WeightEvent {}
}
