package dev.cupwarden.core.setup;

import java.util.HashMap;
import java.util.Map;

/** Which line of the board is taken by whom. */
final class GpioLines {
  /** The header of the boards has the lines 0 to 27; 2 and 3 are the wires of I2C bus 1. */
  private static final int MOST = 27;

  private final Map<Integer, String> takenBy = new HashMap<>();

  GpioLines(int i2cBus) {
    if (i2cBus == 1) {
      takenBy.put(2, "the I2C bus");
      takenBy.put(3, "the I2C bus");
    }
  }

  /** Reads {@code gpio} and takes that line. */
  int take(Section keys) throws SetupException {
    return take(keys, "gpio");
  }

  /** Reads the number of a line and takes that line. */
  int take(Section keys, String key) throws SetupException {
    Entry line = keys.need(key, "the number of a line");
    int gpio = line.integer(0, MOST);
    String other = takenBy.putIfAbsent(gpio, keys.self().path());
    if (other != null) {
      throw line.refuse("%d is already the line of %s".formatted(gpio, other));
    }
    return gpio;
  }
}
