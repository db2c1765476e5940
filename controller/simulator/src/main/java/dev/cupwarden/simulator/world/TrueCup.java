package dev.cupwarden.simulator.world;

import dev.cupwarden.core.setup.RootStage;

/**
 * One cup as it truly is in its world. Water counts as 1 g/mL. What came in is always equal to what
 * is there and what went out; see {@link Balance}.
 */
public interface TrueCup {
  /** Water onto the mix, mL, with feed of that part of the label's strength. */
  void give(double ml, double strength);

  /** Lets time pass in that air. */
  void advance(double seconds, Air air);

  /** Vessel, mix, water in and on it, plant, and what lies about it, g. */
  double grossG();

  /** Water in and on the mix, mL. */
  double waterMl();

  /** All that ran out below and was not taken up again so far, mL. */
  double trayMl();

  /** What the mix truly holds when drained, mL. */
  double capacityMl();

  /** Water between capacity and where the cutting can take no more, mL. */
  double availableMl();

  /** True depletion: 0 at capacity, 1 where the cutting can take no more; water on top counts. */
  double depletion();

  /** The depletion at which air falls to the given volume fraction. */
  double depletionAtAir(double airFraction);

  /** Air in the mix, mean volume fraction. */
  double airFraction();

  /** The cup's salts in the water held at capacity, mS/cm: free of how dry the cup is just now. */
  double ecAtCapacityMsPerCm();

  /** How the roots look now. */
  RootStage stage();

  /** Whether the cutting lives. */
  boolean alive();

  /** Whether rot, not drought, killed it. */
  boolean rotted();

  /** How far rot has gone, 0 none to 1 death. */
  double rot();

  /** Leaf area, cm². */
  double leafCm2();

  /** A disease from outside; {@code rise} is added to the rot. */
  void infect(double rise);

  /** The account of water, nitrogen and salts since the start. */
  Balance balance();

  /** Whether its world has basins to stand it in. */
  default boolean canStandInWater() {
    return false;
  }

  /**
   * A person stands it in water that deep, cm above its base; 0 takes it out.
   *
   * @throws UnsupportedOperationException unless it {@link #canStandInWater}
   */
  default void standInWater(double depthCm) {
    throw new UnsupportedOperationException("no basin in this world");
  }

  /**
   * A person puts a dome over it, or takes it off.
   *
   * @throws UnsupportedOperationException in a world that has no domes
   */
  default void cover(boolean covered) {
    throw new UnsupportedOperationException("no dome in this world");
  }

  /**
   * A person puts a saucer under it, or takes it away with what is in it.
   *
   * @throws UnsupportedOperationException in a world that has no saucers
   */
  default void saucer(boolean under) {
    throw new UnsupportedOperationException("no saucer in this world");
  }
}
