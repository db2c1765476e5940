package dev.cupwarden.app.journal;

import dev.cupwarden.app.SmallFile;
import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import java.util.OptionalLong;

/**
 * The number of the last tick, in a file beside the journal. SQLite takes a log that was cut short
 * for one that ends there, and an emptied file for a new one; the mark tells that ticks are
 * missing, which must not be taken for water that was never given.
 */
final class TickMark {
  private static final int DIGITS = 19;

  private final Path file;

  TickMark(Path journal) {
    this.file = journal.resolveSibling(journal.getFileName() + ".tick");
  }

  Path file() {
    return file;
  }

  /** On the disk when this returns. */
  void write(long tick) throws IOException {
    String text = String.format(Locale.ROOT, "%0" + DIGITS + "d%n", tick);
    PrivateFile.make(file);
    // Not by a channel: an interrupt closes one, and a loop told to stop is to finish its tick.
    try (RandomAccessFile written = new RandomAccessFile(file.toFile(), "rwd")) {
      written.write(text.getBytes(StandardCharsets.US_ASCII));
    }
  }

  /** The last one written; none where there is no file, or not a whole one. */
  OptionalLong read() {
    try {
      String text = SmallFile.text(file);
      return text.length() > DIGITS
          ? OptionalLong.of(Long.parseLong(text.substring(0, DIGITS)))
          : OptionalLong.empty();
    } catch (IOException | NumberFormatException none) {
      return OptionalLong.empty();
    }
  }
}
