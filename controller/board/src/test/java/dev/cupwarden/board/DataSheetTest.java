package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

/** Conversions and checks against figures that others published. */
class DataSheetTest {
  private static byte[] hex(String bytes) {
    return HexFormat.of().parseHex(bytes.replace(" ", ""));
  }

  private static int highFirst(byte[] data) {
    return Crc8.HIGH_BIT_FIRST.of(data, 0, data.length);
  }

  /** BE EF → 92: data sheet of the SHT3x, section 4.12; the rest computed from its polynomial. */
  @Test
  void checkOfTheAirSensor() {
    assertEquals(0x92, highFirst(hex("BE EF")));
    assertEquals(0xF7, highFirst("123456789".getBytes(StandardCharsets.US_ASCII)));
    assertEquals(0x81, highFirst(hex("00 00")));
    assertEquals(0xAC, highFirst(hex("FF FF")));
  }

  /** BEEF → 85.523003 °C: seen in a published test of a driver; 6666h → 25 °C exactly. */
  @Test
  void temperatureAndHumidityOfTheAirSensor() throws ChipException {
    Sht3x.Air air = Sht3x.decode(hex("BE EF 92 BE EF 92"));
    assertEquals(85.523003, air.tempC(), 1e-5);
    assertEquals(74.584573, air.rhPct(), 1e-5);
    assertEquals(25.0, Sht3x.decode(hex("66 66 93 BE EF 92")).tempC(), 1e-9);
    assertEquals(50.000763, Sht3x.decode(hex("66 66 93 80 00 A2")).rhPct(), 1e-5);
  }

  @Test
  void aBitTurnedOverInTheAirSensorsAnswerIsFound() throws ChipException {
    byte[] good = hex("BE EF 92 BE EF 92");
    Sht3x.decode(good);
    for (int bit = 0; bit < 48; bit++) {
      byte[] bad = good.clone();
      bad[bit / 8] ^= (byte) (1 << bit % 8);
      assertThrows(ChipException.class, () -> Sht3x.decode(bad), "bit " + bit);
    }
  }

  /** Two's complement of 24 bits; both ends are faults (data sheets of NAU7802 and HX711). */
  @Test
  void signOfA24BitCode() throws ChipException {
    assertEquals(1, counts("00 00 01"));
    assertEquals(-1, counts("FF FF FF"));
    assertEquals(8388606, counts("7F FF FE"));
    assertEquals(-8388607, counts("80 00 01"));
    assertThrows(ChipException.class, () -> counts("7F FF FF"));
    assertThrows(ChipException.class, () -> counts("80 00 00"));
  }

  private static int counts(String bytes) throws ChipException {
    byte[] code = hex(bytes);
    return Counts24.inRange(Counts24.of(code[0], code[1], code[2]));
  }
}
