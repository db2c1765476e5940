package dev.cupwarden.board;

/**
 * Eight-bit cyclic redundancy checks, bit by bit, as two families of sensors define them.
 *
 * <p>Both use the polynomial x⁸+x⁵+x⁴+1; one sends the high bit first, the other the low bit first.
 */
enum Crc8 {
  /** Polynomial 31h, high bit first, start FFh (data sheet of the SHT3x, section 4.12). */
  HIGH_BIT_FIRST {
    @Override
    int of(byte[] data, int from, int to) {
      int crc = 0xFF;
      for (int i = from; i < to; i++) {
        crc ^= data[i] & 0xFF;
        for (int bit = 0; bit < 8; bit++) {
          crc = (crc & 0x80) != 0 ? crc << 1 ^ 0x131 : crc << 1;
        }
      }
      return crc;
    }
  },
  /** Polynomial 8Ch, low bit first, start 0 (one-wire bus). */
  LOW_BIT_FIRST {
    @Override
    int of(byte[] data, int from, int to) {
      int crc = 0;
      for (int i = from; i < to; i++) {
        crc ^= data[i] & 0xFF;
        for (int bit = 0; bit < 8; bit++) {
          crc = (crc & 1) != 0 ? crc >> 1 ^ 0x8C : crc >> 1;
        }
      }
      return crc;
    }
  };

  /** The check of the bytes from {@code from} to before {@code to}, 0 to 255. */
  abstract int of(byte[] data, int from, int to);
}
