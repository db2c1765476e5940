package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.LineRefused;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class BoundedLinesTest {
  private static List<String> lines(String text) throws IOException, LineRefused {
    BoundedLines lines =
        new BoundedLines(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    List<String> read = new ArrayList<>();
    for (BoundedLines.Line line = lines.next(); line != null; line = lines.next()) {
      read.add(line.number() + " " + line.text());
    }
    return read;
  }

  @Test
  void lfCrlfAndTheEndAllEndALine() throws IOException, LineRefused {
    assertEquals(List.of("1 a", "2 ", "3 b", "4 c"), lines("a\n\r\nb\r\nc"));
    assertEquals(List.of("1 a"), lines("a\n"));
    assertEquals(List.of(), lines(""));
    assertEquals(List.of("1 "), lines("\n"));
    assertEquals(List.of("1 a\rb"), lines("a\rb\n"));
  }

  @Test
  void aByteOrderMarkIsDroppedFromTheFirstLineOnly() throws IOException, LineRefused {
    assertEquals(List.of("1 a", "2 \uFEFFb"), lines("\uFEFFa\n\uFEFFb"));
  }

  @Test
  void aLineMayBeAsLongAsTheBoundAndNoLonger() throws IOException {
    for (String end : new String[] {"", "\n", "\r\n"}) {
      BoundedLines lines =
          new BoundedLines(
              new ByteArrayInputStream(
                  ("x".repeat(BoundedLines.MOST_BYTES)
                          + end
                          + (end.isEmpty()
                              ? ""
                              : "x".repeat(BoundedLines.MOST_BYTES + 1) + end + "after"))
                      .getBytes(StandardCharsets.UTF_8)));
      assertEquals(
          BoundedLines.MOST_BYTES,
          org.junit.jupiter.api.Assertions.assertDoesNotThrow(lines.next()::text).length());
      if (!end.isEmpty()) {
        BoundedLines.Line tooLong = lines.next();
        assertEquals(
            "is longer than 256 KiB", assertThrows(LineRefused.class, tooLong::text).getMessage());
        assertEquals(
            "after", org.junit.jupiter.api.Assertions.assertDoesNotThrow(lines.next()::text));
      }
    }
  }

  /** A gigabyte without an end goes by in a heap that could not hold it. */
  @Test
  void anEndlessLineIsSkippedNotHeld() throws IOException {
    BoundedLines lines =
        new BoundedLines(
            new InputStream() {
              private long left = 1L << 30;

              @Override
              public int read() {
                throw new AssertionError("bytes are read in chunks");
              }

              @Override
              public int read(byte[] into, int at, int length) {
                int given = (int) Math.min(length, left);
                left -= given;
                return given == 0 ? -1 : given;
              }
            });
    BoundedLines.Line line = lines.next();
    assertTrue(line.tooLong());
    assertTrue(line.held().length <= BoundedLines.MOST_BYTES + 1);
  }

  @Test
  void bytesThatAreNotUtf8RefuseTheirLineOnly() throws IOException, LineRefused {
    byte[] bytes = {'a', (byte) 0xFF, '\n', 'b', '\n', (byte) 0xC3};
    BoundedLines lines = new BoundedLines(new ByteArrayInputStream(bytes));
    assertThrows(LineRefused.class, lines.next()::text);
    assertEquals("b", lines.next().text());
    assertThrows(LineRefused.class, lines.next()::text);
  }
}
