package dev.cupwarden.simulator.chips;

import java.util.function.IntToDoubleFunction;
import java.util.function.LongSupplier;

/**
 * The 16-bit converter ADS1115 from its data sheet: pointer register, 16-bit words, single shots.
 */
public final class SimulatedAds1115 implements SimulatedChip {
  private static final double[] FULL_SCALE_V = {
    6.144, 4.096, 2.048, 1.024, 0.512, 0.256, 0.256, 0.256
  };
  private static final int[] PER_S = {8, 16, 32, 64, 128, 250, 475, 860};

  private final LongSupplier nanos;
  private final IntToDoubleFunction volts;
  private int pointer;
  private int config;
  private int conversion;
  private int pending;
  private long doneNanos;

  /**
   * A chip after power-on.
   *
   * @param volts the voltage at an input, 0 to 3, against ground
   */
  public SimulatedAds1115(LongSupplier nanos, IntToDoubleFunction volts) {
    this.nanos = nanos;
    this.volts = volts;
    losePower();
  }

  @Override
  public String part() {
    return "ads1115";
  }

  @Override
  public void losePower() {
    pointer = 0;
    config = 0x8583;
    conversion = 0;
    pending = 0;
  }

  @Override
  public void write(int[] bytes) {
    if (bytes.length > 0) {
      pointer = bytes[0] & 3;
    }
    if (bytes.length >= 3 && pointer == 1) {
      config = bytes[1] << 8 | bytes[2];
      if ((config & 0x8000) != 0) {
        begin();
      }
    }
  }

  private void begin() {
    int mux = config >> 12 & 7;
    double v =
        switch (mux) {
          case 0 -> volts.applyAsDouble(0) - volts.applyAsDouble(1);
          case 1 -> volts.applyAsDouble(0) - volts.applyAsDouble(3);
          case 2 -> volts.applyAsDouble(1) - volts.applyAsDouble(3);
          case 3 -> volts.applyAsDouble(2) - volts.applyAsDouble(3);
          default -> volts.applyAsDouble(mux - 4);
        };
    double code = Math.rint(v / FULL_SCALE_V[config >> 9 & 7] * 32768);
    pending = (int) Math.max(-32768, Math.min(32767, code));
    doneNanos = nanos.getAsLong() + 1_000_000_000L / PER_S[config >> 5 & 7];
  }

  @Override
  public int[] read(int count) {
    boolean done = nanos.getAsLong() >= doneNanos;
    if (done) {
      conversion = pending;
    }
    int word =
        switch (pointer) {
          case 0 -> conversion;
          case 1 -> (config & 0x7FFF) | (done ? 0x8000 : 0);
          case 2 -> 0x8000;
          default -> 0x7FFF;
        };
    int[] out = new int[count];
    for (int i = 0; i < count; i++) {
      out[i] = (i % 2 == 0 ? word >> 8 : word) & 0xFF;
    }
    return out;
  }
}
