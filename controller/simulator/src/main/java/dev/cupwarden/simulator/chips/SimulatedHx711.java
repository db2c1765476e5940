package dev.cupwarden.simulator.chips;

import java.util.function.DoubleSupplier;
import java.util.function.LongSupplier;

/**
 * The bridge converter HX711 from its data sheet: data goes low when a conversion waits; each
 * rising edge of the clock shifts out one of 24 bits, high bit first; the 25th to 27th choose input
 * and gain of the next conversion and set data high. A clock that is high for 60 µs powers the chip
 * down; when it falls the chip begins anew and settles for four conversions.
 */
public final class SimulatedHx711 {
  private static final long PERIOD_NANOS = 100_000_000;
  private static final long SETTLING_NANOS = 400_000_000;
  private static final long POWER_DOWN_NANOS = 60_000;

  private final LongSupplier nanos;
  private final DoubleSupplier ratio;
  private boolean clockHigh;
  private long roseNanos;
  private long readyNanos = SETTLING_NANOS;
  private int pulses;
  private int shifted;
  private double gain = 128;
  private double nextGain = 128;
  private volatile ChipFault fault = ChipFault.NONE;

  /**
   * A chip that has just got its supply.
   *
   * @param ratio the bridge's output over its supply, V/V
   */
  public SimulatedHx711(LongSupplier nanos, DoubleSupplier ratio) {
    this.nanos = nanos;
    this.ratio = ratio;
  }

  /**
   * Breaks it: without supply its data line is pulled up, {@code STUCK} it shifts out the code it
   * had, and what holds a line holds the data line low.
   */
  public void breakWith(ChipFault now) {
    fault = now;
  }

  /** The clock line goes to that level. */
  public void clock(boolean high) {
    long now = nanos.getAsLong();
    if (high && !clockHigh) {
      roseNanos = now;
      shift();
    } else if (!high && clockHigh && now - roseNanos >= POWER_DOWN_NANOS) {
      readyNanos = now + SETTLING_NANOS;
      pulses = 0;
      gain = 128;
      nextGain = 128;
    }
    clockHigh = high;
  }

  /** The next conversion ends, and waits with the settings the last pulses chose. */
  private void convert() {
    if (pulses > 24 && nanos.getAsLong() >= readyNanos) {
      pulses = 0;
      gain = nextGain;
    }
  }

  private void shift() {
    convert();
    if (pulses == 0) {
      if (nanos.getAsLong() < readyNanos) {
        return;
      }
      double code = Math.rint(ratio.getAsDouble() * gain * (1 << 24));
      if (fault != ChipFault.STUCK) {
        shifted = (int) Math.max(-0x800000, Math.min(0x7FFFFF, code));
      }
    }
    pulses++;
    if (pulses == 25) {
      nextGain = 128;
      readyNanos = nanos.getAsLong() + PERIOD_NANOS;
    } else if (pulses == 26) {
      nextGain = 32;
    } else if (pulses == 27) {
      nextGain = 64;
    }
  }

  /** The level of the data line. */
  public boolean data() {
    switch (fault) {
      case SILENT, ONES -> {
        return true;
      }
      case ZEROES, BUS_ERROR -> {
        return false;
      }
      default -> convert();
    }
    if (pulses > 0 && pulses <= 24) {
      return (((shifted >> (24 - pulses)) & 1) != 0)
          != (fault == ChipFault.GARBLED && pulses % 5 == 0);
    }
    return nanos.getAsLong() < readyNanos;
  }
}
