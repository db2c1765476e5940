package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/**
 * Bytes as numbered lines, ended by LF or CRLF, the last one also by the end. No more of a line is
 * held than a line may have; the rest of a longer one is skipped.
 */
final class BoundedLines {
  /** Two hundred cups with every field take a tenth of this. */
  static final int MOST_BYTES = 256 * 1024;

  private final InputStream in;
  private final byte[] chunk = new byte[64 * 1024];
  private int from;
  private int to;
  private long number;

  BoundedLines(InputStream in) {
    this.in = in;
  }

  /** The next line; null at the end. Returns as soon as the line is complete. */
  Line next() throws IOException {
    if (from == to && !fill()) {
      return null;
    }
    number++;
    ByteArrayOutputStream held = new ByteArrayOutputStream();
    boolean tooLong = false;
    do {
      int end = from;
      while (end < to && chunk[end] != '\n') {
        end++;
      }
      int room = MOST_BYTES + 1 - held.size();
      held.write(chunk, from, Math.min(end - from, room));
      tooLong |= end - from > room;
      boolean complete = end < to;
      from = complete ? end + 1 : end;
      if (complete) {
        break;
      }
    } while (fill());
    return line(held.toByteArray(), tooLong);
  }

  private Line line(byte[] held, boolean tooLong) {
    int length = held.length;
    if (length > 0 && held[length - 1] == '\r' && !tooLong) {
      length--;
    }
    return new Line(number, held, length, tooLong || length > MOST_BYTES);
  }

  private boolean fill() throws IOException {
    from = 0;
    to = Math.max(0, in.read(chunk));
    return to > 0;
  }

  /**
   * A line without its end.
   *
   * @param number from 1
   * @param held its bytes, of which the first {@code length} count
   * @param tooLong whether there was more of it than a line may have
   */
  record Line(long number, byte[] held, int length, boolean tooLong) {
    /** Its text, without the byte order mark that some editors put before the first line. */
    String text() throws LineRefused {
      if (tooLong) {
        throw new LineRefused("is longer than %d KiB".formatted(MOST_BYTES / 1024));
      }
      try {
        String text =
            StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(held, 0, length)).toString();
        return number == 1 && text.startsWith("\uFEFF") ? text.substring(1) : text;
      } catch (CharacterCodingException notUtf8) {
        throw new LineRefused("is not UTF-8 text");
      }
    }
  }
}
