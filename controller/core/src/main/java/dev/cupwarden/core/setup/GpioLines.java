package dev.cupwarden.core.setup;

import java.util.HashMap;
import java.util.Map;

/** Which line of the board is taken by whom. */
final class GpioLines {
  /** The header with 40 pins has the lines 0 to 27; 2 and 3 are the wires of I2C bus 1. */
  private static final int LAST_OF_THE_HEADER = 27;

  /** More than any processor's chip of lines has; the machine knows how many. */
  private static final int LAST_OF_A_CHIP = 1023;

  private final int last;

  private final Map<Integer, String> takenBy = new HashMap<>();

  private GpioLines(int last) {
    this.last = last;
  }

  /** Of the header with 40 pins. */
  static GpioLines ofTheHeader(int i2cBus) {
    GpioLines lines = new GpioLines(LAST_OF_THE_HEADER);
    if (i2cBus == 1) {
      lines.takenBy.put(2, "the I2C bus");
      lines.takenBy.put(3, "the I2C bus");
    }
    return lines;
  }

  /** Of a chip that the bench file names: where its lines lead, only the builder knows. */
  static GpioLines ofAChip() {
    return new GpioLines(LAST_OF_A_CHIP);
  }

  /** Reads {@code gpio} and takes that line. */
  int take(Section keys) throws SetupException {
    return take(keys, "gpio");
  }

  /** Reads the number of a line and takes that line. */
  int take(Section keys, String key) throws SetupException {
    Entry line = keys.need(key, "the number of a line");
    int gpio = line.integer(0, last);
    String other = takenBy.putIfAbsent(gpio, keys.self().path());
    if (other != null) {
      throw line.refuse("%d is already the line of %s".formatted(gpio, other));
    }
    return gpio;
  }
}
