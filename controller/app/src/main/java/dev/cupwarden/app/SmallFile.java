package dev.cupwarden.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Files that the program keeps or is given beside bench file and journal, read whole: passwords,
 * marks, the history of calibrations.
 */
public final class SmallFile {
  /** A thousand calibrations, and a two-hundredth of a small board's heap. */
  static final int MOST_BYTES = 256 * 1024;

  private SmallFile() {}

  /**
   * Its text, in UTF-8.
   *
   * @throws IOException also when it is larger than such a file may be; no more is read then
   */
  public static String text(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(MOST_BYTES + 1);
      if (bytes.length > MOST_BYTES) {
        throw new IOException(
            "%s is larger than expected: at most %d KiB".formatted(file, MOST_BYTES / 1024));
      }
      return new String(bytes, StandardCharsets.UTF_8);
    }
  }
}
