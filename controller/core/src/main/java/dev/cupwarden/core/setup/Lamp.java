package dev.cupwarden.core.setup;

import java.time.LocalTime;

/**
 * The hours in which the bench's lamp burns, by the grower's clock; over midnight where it is put
 * out earlier in the day than it is lit.
 *
 * @param from first minute of light
 * @param to first minute after it, another than {@code from}
 */
public record Lamp(LocalTime from, LocalTime to) {
  /**
   * @throws IllegalArgumentException for no hours at all, or all of them
   */
  public Lamp {
    if (from.equals(to)) {
      throw new IllegalArgumentException("from must differ from to, not both be " + to);
    }
  }

  /** Whether it burns at that time of day. */
  public boolean burnsAt(LocalTime time) {
    boolean lit = !time.isBefore(from);
    boolean notOut = time.isBefore(to);
    return from.isBefore(to) ? lit && notOut : lit || notOut;
  }
}
