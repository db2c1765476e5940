package dev.cupwarden.simulator;

/** How a valve can be broken. */
public enum ValveFault {
  /** Works. */
  NONE,
  /** Does not open. */
  STUCK_SHUT,
  /** Does not shut. */
  STUCK_OPEN,
  /**
   * A grain under the seat: shut, it lets a tenth of a flow through, and drips 20 mL an hour at
   * rest.
   */
  LEAKING
}
