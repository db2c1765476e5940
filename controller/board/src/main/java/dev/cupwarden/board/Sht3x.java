package dev.cupwarden.board;

import java.time.Duration;

/**
 * The temperature and humidity sensor SHT3x (data sheet sections 4.3, 4.12, 4.13): single shots at
 * high repeatability without clock stretching, each word with its check.
 */
final class Sht3x {
  private static final int[] SINGLE_SHOT = {0x24, 0x00};

  /** A shot takes at most 15 ms; a little more is given before it is asked for. */
  private static final Duration SHOT = Duration.ofMillis(20);

  private static final int ATTEMPTS = 3;

  private final I2cPort port;
  private final Pace pace;

  Sht3x(I2cPort port, Pace pace) {
    this.port = port;
    this.pace = pace;
  }

  /**
   * What the air is like.
   *
   * @param tempC −45 to 130 °C
   * @param rhPct 0 to 100 percent
   */
  record Air(double tempC, double rhPct) {}

  /** Measures, trying again when a check is wrong or the chip does not answer. */
  Air measure() throws ChipException {
    ChipException last = null;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      try {
        port.write(SINGLE_SHOT);
        pace.pause(SHOT);
        return decode(port.read(6));
      } catch (ChipException e) {
        last = e;
      }
    }
    throw last;
  }

  /**
   * T = −45 + 175·S/(2¹⁶−1) °C, RH = 100·S/(2¹⁶−1) %, from six bytes: two words, each with check.
   */
  static Air decode(byte[] frame) throws ChipException {
    int temp = word(frame, 0);
    int humidity = word(frame, 3);
    if (temp == 0 || temp == 0xFFFF) {
      throw new ChipException(
          "The air sensor is at the end of its range (0x%04x): it is broken.".formatted(temp));
    }
    return new Air(-45 + 175.0 * temp / 65535, 100.0 * humidity / 65535);
  }

  private static int word(byte[] frame, int at) throws ChipException {
    int check = Crc8.HIGH_BIT_FIRST.of(frame, at, at + 2);
    int sent = frame[at + 2] & 0xFF;
    if (check != sent) {
      throw new ChipException(
          "The air sensor sent a wrong check: 0x%02x where 0x%02x was expected."
              .formatted(sent, check));
    }
    return ((frame[at] & 0xFF) << 8) | (frame[at + 1] & 0xFF);
  }
}
