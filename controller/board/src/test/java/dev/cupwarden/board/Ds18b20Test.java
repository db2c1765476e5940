package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Ds18b20Test {
  @TempDir private Path dir;

  private static byte[] hex(String bytes) {
    return HexFormat.ofDelimiter(" ").parseHex(bytes.toLowerCase(java.util.Locale.ROOT));
  }

  /** A scratchpad of 12 bits with its right check. */
  private static byte[] scratchpad(int raw, int config) {
    byte[] pad = {
      (byte) raw, (byte) (raw >> 8), 0x4B, 0x46, (byte) config, (byte) 0xFF, 3, 0x10, 0
    };
    pad[8] = (byte) Crc8.LOW_BIT_FIRST.of(pad, 0, 8);
    return pad;
  }

  /** The table of the data sheet; its row of 85 °C is the power-on value. */
  @ParameterizedTest
  @CsvSource({
    "07D0, 125",
    "0191, 25.0625",
    "00A2, 10.125",
    "0008, 0.5",
    "0000, 0",
    "FFF8, -0.5",
    "FF5E, -10.125",
    "FE6F, -25.0625",
    "FC90, -55"
  })
  void temperaturesOfTheSheet(String raw, double tempC) throws ChipException {
    assertEquals(tempC, Ds18b20.tempC(scratchpad(Integer.parseInt(raw, 16), 0x7F)), 0);
  }

  @Test
  void theValueAfterPowerOnIsNoTemperature() {
    assertThrows(ChipException.class, () -> Ds18b20.tempC(scratchpad(0x0550, 0x7F)));
  }

  @Test
  void undefinedBitsOfALesserResolutionAreMasked() throws ChipException {
    assertEquals(25.0, Ds18b20.tempC(scratchpad(0x0191, 0x5F)), 0, "11 bit");
    assertEquals(25.0, Ds18b20.tempC(scratchpad(0x0193, 0x3F)), 0, "10 bit");
    assertEquals(25.0, Ds18b20.tempC(scratchpad(0x0197, 0x1F)), 0, "9 bit");
  }

  /** Scratchpads and a ROM seen in the wild with their checks; "123456789" → A1. */
  @Test
  void checks() throws ChipException {
    assertEquals(
        0xA1, Crc8.LOW_BIT_FIRST.of("123456789".getBytes(StandardCharsets.US_ASCII), 0, 9));
    assertEquals(0xB9, Crc8.LOW_BIT_FIRST.of(hex("28 DC 66 74 05 00 00"), 0, 7));
    assertEquals(0x73, Crc8.LOW_BIT_FIRST.of(hex("28 B1 43 FE 04 00 00"), 0, 7));
    assertEquals(20.8125, Ds18b20.tempC(hex("4D 01 4B 46 7F FF 03 10 D8")), 0);
    assertEquals(21.0, Ds18b20.tempC(hex("50 01 4B 46 7F FF 10 10 49")), 0);
    assertThrows(ChipException.class, () -> Ds18b20.tempC(hex("4D 01 4B 46 7F FF 03 10 D9")));
    assertThrows(ChipException.class, () -> Ds18b20.tempC(new byte[9]), "its check is right, too");
  }

  @Test
  void theKernelsFileIsReadOrIsAFault() throws IOException, ChipException {
    Path file = dir.resolve("w1_slave");
    Ds18b20 sensor = new Ds18b20(id -> Files.readAllBytes(file), "28-0316a2795aff");
    assertTrue(
        assertThrows(ChipException.class, sensor::tempC).getMessage().contains("does not answer"));
    String good = "4d 01 4b 46 7f ff 03 10 d8 : crc=d8 YES\n4d 01 4b 46 7f ff 03 10 d8 t=20812\n";
    Files.writeString(file, good);
    assertEquals(20.8125, sensor.tempC(), 0);
    for (int length = 0; length < 26; length++) {
      Files.writeString(file, good.substring(0, length));
      assertThrows(ChipException.class, sensor::tempC, "truncated at " + length);
    }
    Files.write(file, new byte[] {0, (byte) 0xFF, (byte) 0xC3, 0x28});
    assertThrows(ChipException.class, sensor::tempC);
  }
}
