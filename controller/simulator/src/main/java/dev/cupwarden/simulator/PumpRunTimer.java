package dev.cupwarden.simulator;

import java.time.Duration;

/**
 * The pump-run timer beside the processor, as the hardware notes say it: a retriggerable monostable
 * of 2 s. The pump's driver is on while its line is and the heartbeat's last rising edge is no
 * longer ago. A bench without a heartbeat line has none: there the line alone decides.
 */
final class PumpRunTimer {
  static final Duration RUNS = Duration.ofSeconds(2);

  private final boolean fitted;
  private boolean line;
  private boolean beatHigh;
  private long fallsNanos = Long.MIN_VALUE;

  PumpRunTimer(boolean fitted) {
    this.fitted = fitted;
  }

  /** The pump's line goes to that; returns whether the pump is on now. */
  boolean drive(boolean on, long nowNanos) {
    line = on;
    return line && lets(nowNanos);
  }

  /** The heartbeat's line goes to that level; returns whether the pump is on now. */
  boolean beat(boolean high, long nowNanos) {
    if (high && !beatHigh) {
      fallsNanos = nowNanos + RUNS.toNanos();
    }
    beatHigh = high;
    return line && lets(nowNanos);
  }

  /** When it falls back unless it is triggered before. */
  long fallsAt() {
    return fitted ? fallsNanos : Long.MIN_VALUE;
  }

  /** Whether it lets the pump run at that time. */
  boolean lets(long nowNanos) {
    return !fitted || nowNanos < fallsNanos;
  }
}
