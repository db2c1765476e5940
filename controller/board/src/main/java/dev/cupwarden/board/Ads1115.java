package dev.cupwarden.board;

import java.time.Duration;

/**
 * The 16-bit converter ADS1115 with four inputs, for moisture probes (data sheet, sections on the
 * conversion and config registers): single shots against ground at ±4.096 V, 125 µV a step.
 */
final class Ads1115 {
  private static final int CONVERSION = 0x00;
  private static final int CONFIG = 0x01;

  private static final int START = 0x8000;
  private static final int INPUT_0_TO_GROUND = 0x4000;
  private static final int INPUT_STEP = 0x1000;
  private static final int RANGE_4V096 = 0x0200;
  private static final int SINGLE_SHOT = 0x0100;
  private static final int RATE_128_PER_S = 0x0080;
  private static final int COMPARATOR_OFF = 0x0003;

  private static final double V_PER_STEP = 125e-6;

  /** A probe runs on the same supply: more than that, with a little to spare, cannot be. */
  private static final double SUPPLY_V = 3.3 * 1.02;

  private static final Duration SHOT = Duration.ofMillis(9);
  private static final Duration SHOT_WITHIN = Duration.ofMillis(50);

  private final I2cPort port;
  private final Pace pace;

  Ads1115(I2cPort port, Pace pace) {
    this.port = port;
    this.pace = pace;
  }

  /**
   * The voltage at an input, 0 to 3.3 V.
   *
   * @param input 0 to 3
   */
  double volts(int input) throws ChipException {
    if (input < 0 || input > 3) {
      throw new IllegalArgumentException("An ADS1115 has inputs 0 to 3, not " + input);
    }
    int config =
        INPUT_0_TO_GROUND
            + input * INPUT_STEP
            + RANGE_4V096
            + SINGLE_SHOT
            + RATE_128_PER_S
            + COMPARATOR_OFF;
    int command = config | START;
    port.write(CONFIG, command >> 8, command & 0xFF);
    pace.pause(SHOT);
    awaitEnd(config);
    return decode(word(CONVERSION));
  }

  /** The start bit reads 1 again when the shot is over; the rest must be as it was written. */
  private void awaitEnd(int config) throws ChipException {
    long deadline = pace.nanos() + SHOT_WITHIN.toNanos();
    int shown;
    while (((shown = word(CONFIG) & 0xFFFF) & START) == 0) {
      if (pace.nanos() >= deadline) {
        throw new ChipException("The probe converter does not end its conversion.");
      }
      pace.pause(Duration.ofMillis(1));
    }
    if ((shown & ~START) != config) {
      throw new ChipException(
          "The probe converter shows settings 0x%04x where 0x%04x was written."
              .formatted(shown & ~START, config));
    }
  }

  private int word(int register) throws ChipException {
    byte[] bytes = port.readFrom(register, 2);
    return (bytes[0] << 8) | (bytes[1] & 0xFF);
  }

  /** Volts of a signed 16-bit code; both ends, and what the supply cannot give, are faults. */
  static double decode(int code) throws ChipException {
    if (code == Short.MAX_VALUE || code == Short.MIN_VALUE) {
      throw new ChipException(
          "The probe converter is at its end (0x%04x).".formatted(code & 0xFFFF));
    }
    double volts = code * V_PER_STEP;
    if (volts > SUPPLY_V || volts < -0.1) {
      throw new ChipException(
          "A probe gives %.3f V, which its supply cannot: it is miswired.".formatted(volts));
    }
    return volts;
  }
}
