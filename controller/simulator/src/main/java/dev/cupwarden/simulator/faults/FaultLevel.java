package dev.cupwarden.simulator.faults;

/** How much goes wrong. */
public enum FaultLevel {
  /** Nothing but the noise of good scales. */
  NONE,
  /** A normal winter: what happens on any bench within weeks. */
  COMMON,
  /** Every kind of fault, often. */
  ALL
}
