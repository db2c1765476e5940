package dev.cupwarden.simulator.chips;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.function.DoubleSupplier;

/**
 * The one-wire thermometer DS18B20 at 12 bits, from its data sheet, as the kernel's driver writes
 * it: nine bytes of scratchpad, the judgement of their check, and the bytes again with the value.
 */
public final class SimulatedDs18b20 {
  /** How it can be broken. */
  public enum Fault {
    NONE,
    /** Off the wire: the kernel has no file. */
    SILENT,
    /** The wire is shorted: nothing but zeroes. */
    SHORTED,
    /** Too little supply for a conversion: the value of power-on, 85 °C. */
    WEAK,
    /** A bit is turned over on its way. */
    GARBLED
  }

  private final DoubleSupplier tempC;
  private volatile Fault fault = Fault.NONE;

  public SimulatedDs18b20(DoubleSupplier tempC) {
    this.tempC = tempC;
  }

  /** Breaks it; {@link Fault#NONE} mends it. */
  public void breakWith(Fault now) {
    fault = now;
  }

  /** The file as it would be read now. */
  public byte[] slaveFile() throws IOException {
    if (fault == Fault.SILENT) {
      throw new IOException("no such device");
    }
    int code = (int) Math.rint(tempC.getAsDouble() * 16);
    if (fault == Fault.WEAK) {
      code = 0x0550;
    }
    int[] bytes = {code & 0xFF, code >> 8 & 0xFF, 0x4B, 0x46, 0x7F, 0xFF, 0x0C, 0x10, 0};
    bytes[8] = check(bytes);
    if (fault == Fault.SHORTED) {
      bytes = new int[9];
    } else if (fault == Fault.GARBLED) {
      bytes[0] ^= 0x10;
    }
    StringBuilder hex = new StringBuilder();
    for (int b : bytes) {
      hex.append("%02x ".formatted(b));
    }
    String text =
        hex
            + ": crc=%02x YES%n".formatted(bytes[8])
            + hex
            + "t=%d%n".formatted(Math.round(code * 62.5));
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  /** Shift register with taps at x⁸, x⁵ and x⁴, as drawn in the application note on these parts. */
  private static int check(int[] bytes) {
    int register = 0;
    for (int i = 0; i < 8; i++) {
      for (int bit = 0; bit < 8; bit++) {
        int feedback = (register ^ bytes[i] >> bit) & 1;
        register >>= 1;
        if (feedback != 0) {
          register ^= 0b1000_1100;
        }
      }
    }
    return register;
  }
}
