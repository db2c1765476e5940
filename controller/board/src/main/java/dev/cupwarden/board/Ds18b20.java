package dev.cupwarden.board;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * The one-wire thermometer DS18B20 in a cup, by the file the kernel keeps for it ({@code
 * /sys/bus/w1/devices/28-…/w1_slave}): clocking the wire is the kernel's, as it needs microseconds.
 * The nine bytes are checked here again.
 */
final class Ds18b20 {
  private static final int SCRATCHPAD = 9;

  /** Power-on value, 85 °C: no conversion was made. No cup is that hot, so it is never believed. */
  private static final int NO_CONVERSION = 0x0550;

  private static final int ATTEMPTS = 3;

  private final OneWire wire;
  private final String id;

  Ds18b20(OneWire wire, String id) {
    this.wire = wire;
    this.id = id;
  }

  /** The temperature, −55 to 125 °C. Reading takes the sensor up to 750 ms. */
  double tempC() throws ChipException {
    ChipException last = null;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      try {
        return tempC(scratchpad(wire.read(id)));
      } catch (IOException e) {
        last = new ChipException("The thermometer %s does not answer.".formatted(id), e);
      } catch (ChipException e) {
        last = e;
      }
    }
    throw last;
  }

  /** The nine bytes at the start of the kernel's file, as hexadecimal pairs. */
  static byte[] scratchpad(byte[] text) throws ChipException {
    int length = SCRATCHPAD * 3 - 1;
    String pairs = new String(text, 0, Math.min(length, text.length), StandardCharsets.ISO_8859_1);
    try {
      byte[] bytes = HexFormat.ofDelimiter(" ").parseHex(pairs);
      if (bytes.length == SCRATCHPAD) {
        return bytes;
      }
    } catch (IllegalArgumentException e) {
      throw new ChipException("The thermometer's file does not begin with nine bytes.", e);
    }
    throw new ChipException("The thermometer's file does not begin with nine bytes.");
  }

  /** Sixteenths of a degree, the low bits of a lesser resolution masked; 85 °C is refused. */
  static double tempC(byte[] scratchpad) throws ChipException {
    if (Arrays.equals(scratchpad, new byte[SCRATCHPAD])) {
      throw new ChipException("The thermometer sends nothing but zeroes: the line is shorted.");
    }
    int check = Crc8.LOW_BIT_FIRST.of(scratchpad, 0, SCRATCHPAD - 1);
    int sent = scratchpad[SCRATCHPAD - 1] & 0xFF;
    if (check != sent) {
      throw new ChipException(
          "The thermometer sent a wrong check: 0x%02x where 0x%02x was expected."
              .formatted(sent, check));
    }
    int raw = (scratchpad[1] << 8) | (scratchpad[0] & 0xFF);
    int undefinedBits = 3 - (scratchpad[4] >> 5 & 3); // 12 bit: 0, 9 bit: 3
    raw = raw >> undefinedBits << undefinedBits;
    if (raw == NO_CONVERSION) {
      throw new ChipException("The thermometer made no conversion (85 °C): its supply is weak.");
    }
    if (raw < -55 * 16 || raw > 125 * 16) {
      throw new ChipException("The thermometer says %.1f °C.".formatted(raw / 16.0));
    }
    return raw / 16.0;
  }
}
