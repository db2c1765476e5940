package dev.cupwarden.app.journal;

import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32C;

/** CRC-32C (RFC 3720, appendix B.4) of a row: finds any flip of up to three bits in it. */
final class Checksum {
  private Checksum() {}

  static long of(String name, byte[] body) {
    CRC32C crc = new CRC32C();
    crc.update(name.getBytes(StandardCharsets.UTF_8));
    crc.update(0);
    crc.update(body);
    return crc.getValue();
  }
}
