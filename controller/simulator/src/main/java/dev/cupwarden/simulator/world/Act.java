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
}
