package dev.cupwarden.board;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.setup.Bench;

/**
 * The bench's electronics as one thing: all sensors, the pump and its valves. One thread reads and
 * gives; {@link #allOff} and {@link #close} may be called from any.
 */
public final class BenchBoard implements AutoCloseable {
  private BenchBoard() {}

  /**
   * Opens every part of the bench's wiring, with all outputs off before anything else is done.
   *
   * @throws BoardException when the bench has no wiring, or two parts claim the same place
   */
  public static BenchBoard open(Context pi4j, Bench bench, Pace pace) throws BoardException {
    throw new BoardException("The board is not wired: " + bench.name() + pi4j + pace);
  }

  /** One scan of all sensors. A part that fails is a fault in the answer, never an exception. */
  public BoardReadings read() {
    throw new UnsupportedOperationException();
  }

  /** Gives a pass, waiting until it is done or has failed. Beats the dead-man while it waits. */
  public DoseOutcome give(AllowedPass pass) {
    throw new UnsupportedOperationException(pass.cup());
  }

  /** Says that the dosing loop is alive; needed every 2 s while any output is on. */
  public void beat() {}

  /** Pump off, then every valve shut, now. */
  public void allOff() {}

  /** Every chip and line with its place, one a line, as {@code check} prints it. */
  public String busMap() {
    return "";
  }

  /** All outputs off; the lines are given back. The Pi4J context is the caller's to shut down. */
  @Override
  public void close() {}
}
