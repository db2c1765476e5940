package dev.cupwarden.board;

import java.time.Duration;

/** A 24-bit converter on a load cell. It is polled, so that many of them convert side by side. */
public interface WeightConverter {
  /** Resets and configures the chip; nothing is known of it before. */
  void begin() throws ChipException;

  /** Whether it has settled after {@link #begin}; to be asked until it says so. */
  boolean settled() throws ChipException;

  /**
   * Whether a conversion waits to be read.
   *
   * @throws SupplyLostException when the chip has forgotten its configuration
   */
  boolean ready() throws ChipException, SupplyLostException;

  /**
   * The conversion, as a signed 24-bit number.
   *
   * @throws ChipException also when the code is one of the two ends: the cell is overloaded, or a
   *     wire is off
   */
  int counts() throws ChipException;

  /** Time from one conversion to the next. */
  Duration period();

  /** The chip was without supply since {@link #begin}. */
  final class SupplyLostException extends Exception {
    private static final long serialVersionUID = 1L;

    public SupplyLostException() {
      super("The converter lost its supply and was set up anew.");
    }
  }
}
