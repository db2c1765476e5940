package dev.cupwarden.simulator.chips;

import java.util.function.DoubleSupplier;
import java.util.function.LongSupplier;

/**
 * The humidity and temperature sensor SHT3x from its data sheet: two-byte commands, single shots
 * without clock stretching, each word followed by its checksum (x⁸+x⁵+x⁴+1, start FFh).
 */
public final class SimulatedSht3x implements SimulatedChip {
  /** Longest time of a single shot at high repeatability. */
  private static final long SHOT_NANOS = 15_000_000;

  private final LongSupplier nanos;
  private final DoubleSupplier tempC;
  private final DoubleSupplier rhPct;
  private int[] output = {};
  private long readyAtNanos;

  public SimulatedSht3x(LongSupplier nanos, DoubleSupplier tempC, DoubleSupplier rhPct) {
    this.nanos = nanos;
    this.tempC = tempC;
    this.rhPct = rhPct;
  }

  @Override
  public String part() {
    return "sht3x";
  }

  @Override
  public void losePower() {
    output = new int[0];
  }

  @Override
  public void write(int[] bytes) throws NotAcknowledged {
    if (bytes.length != 2) {
      throw new NotAcknowledged();
    }
    switch (bytes[0] << 8 | bytes[1]) {
      case 0x2400, 0x240B, 0x2416 -> measure();
      case 0xF32D -> answer(0x8010); // status after power-on: alert pending, reset detected
      case 0x30A2, 0x3041 -> output = new int[0];
      default -> throw new NotAcknowledged();
    }
  }

  private void measure() {
    double t = Math.max(-45, Math.min(130, tempC.getAsDouble()));
    double rh = Math.max(0, Math.min(100, rhPct.getAsDouble()));
    answer((int) Math.rint((t + 45) / 175 * 65535), (int) Math.rint(rh / 100 * 65535));
    readyAtNanos = nanos.getAsLong() + SHOT_NANOS;
  }

  private void answer(int... words) {
    output = new int[words.length * 3];
    for (int i = 0; i < words.length; i++) {
      output[3 * i] = words[i] >> 8;
      output[3 * i + 1] = words[i] & 0xFF;
      output[3 * i + 2] = checksum(words[i]);
    }
    readyAtNanos = nanos.getAsLong();
  }

  /** The remainder of word · x⁸ by the polynomial, bit by bit, most significant first. */
  private static int checksum(int word) {
    int register = 0xFF;
    for (int bit = 15; bit >= 0; bit--) {
      int in = word >> bit & 1;
      int out = register >> 7 & 1;
      register = register << 1 & 0xFF;
      if ((in ^ out) == 1) {
        register ^= 0b0011_0001;
      }
    }
    return register;
  }

  @Override
  public int[] read(int count) throws NotAcknowledged {
    if (output.length == 0 || nanos.getAsLong() < readyAtNanos) {
      throw new NotAcknowledged();
    }
    int[] out = java.util.Arrays.copyOf(output, count);
    for (int i = output.length; i < count; i++) {
      out[i] = 0xFF; // nobody drives the bus
    }
    output = new int[0];
    return out;
  }
}
