package dev.cupwarden.simulator.world;

import dev.cupwarden.core.setup.RootStage;

/** Something that the person does at the bench. Cups go by their place in the list of cups. */
public sealed interface Act {
  /** Sees roots at the wall and says so. */
  record Sighting(int cup, RootStage stage) implements Act {}

  /** Takes a cup in the hand to look, and puts it back. */
  record Lift(int cup, int minutes) implements Act {}

  /** Takes a cup elsewhere for hours and says so, or forgets to. */
  record Outing(int cup, int minutes, boolean told) implements Act {}

  /** Gives water from a can. */
  record HandWatering(int cup, double ml, double strength, boolean told) implements Act {}

  /** Throws a dead cutting out. */
  record Removal(int cup, boolean rotted) implements Act {}

  /** Fills every tank to the brim with what belongs in it. */
  record Filling() implements Act {}

  /** Mends all that was reported of one cup, and says so. */
  record Mending(int cup) implements Act {}

  /**
   * Stands a cup in the sink and puts it back.
   *
   * @param depthCm of the water about it
   * @param saysAfterMin minutes after it is back that the person says {@code drained}; below 0
   *     never
   */
  record Soak(int cup, int minutes, double depthCm, int saysAfterMin) implements Act {}

  /** Puts two cups each in the other's place, or {@code back}. */
  record Exchange(int place, int other, boolean back) implements Act {}

  /** Knocks at a scale, which shows so many grams more from then on. */
  record Bump(int place, double grams) implements Act {}

  /** Leaves something to lean on what stands at a place. */
  record Lean(int place, double grams, int minutes) implements Act {}

  /** Puts a dome over a cup or takes it off, and says nothing. */
  record Cover(int cup, boolean on) implements Act {}

  /** Puts a saucer under a cup or takes it away. */
  record Saucer(int cup, boolean under) implements Act {}
}
