package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Lines in, answers out, in lock-step: each input line gets exactly one answer, flushed before the
 * next is read, but for the header of a table, which gets none unless it is wrong, and the rows of
 * a table that go together.
 */
final class AdviseSession {
  private static final Logger LOG = LoggerFactory.getLogger(AdviseSession.class);

  private final Bench bench;
  private final Adviser adviser;
  private final AdviceWriter writer;
  private final boolean brief;
  private final Supplier<LineFormat> table;
  private LineFormat format;

  /**
   * @param brief whether to leave the state of the cups out
   * @param table how a table is read
   */
  AdviseSession(
      Bench bench,
      Adviser adviser,
      AdviceWriter writer,
      boolean brief,
      Supplier<LineFormat> table) {
    this.bench = bench;
    this.adviser = adviser;
    this.writer = writer;
    this.brief = brief;
    this.table = table;
  }

  /** The input is a table, even where its first line does not look so. */
  void expectTable() {
    format = table.get();
  }

  /**
   * Answers every line until the input ends.
   *
   * @return whether every line could be read
   * @throws IOException if the input cannot be read or nobody takes the output
   */
  boolean run(InputStream in, OutputStream out) throws IOException {
    BoundedLines lines = new BoundedLines(in);
    boolean allRead = true;
    long last = 0;
    for (BoundedLines.Line line = lines.next(); line != null; line = lines.next()) {
      BoundedLines.Line next = line;
      last = next.number();
      allRead &= answer(last, () -> seen(next), out);
    }
    if (last == 0) {
      write(writer.error(1, "is missing: the input is empty"), out);
      return false;
    }
    boolean ended = format == null || answer(last, format::end, out);
    return ended && allRead;
  }

  /** What a line says. */
  private interface Reading {
    Optional<Observation> seen() throws LineRefused;
  }

  /** Whether it could be read. */
  private boolean answer(long line, Reading reading, OutputStream out) throws IOException {
    try {
      Optional<Observation> seen = reading.seen();
      if (seen.isPresent()) {
        write(writer.answer(advise(seen.get()), format.notes()), out);
      }
      return true;
    } catch (LineRefused refused) {
      write(writer.error(line, refused.getMessage()), out);
      return false;
    }
  }

  private Optional<Observation> seen(BoundedLines.Line line) throws LineRefused {
    String text = line.text();
    if (format == null) {
      format = CsvLines.isHeader(text) ? table.get() : json();
    }
    return format.read(text, adviser.cups());
  }

  /** A fault of ours must not end a long run; the state is as it was before the line. */
  private Advice advise(Observation seen) throws LineRefused {
    try {
      return adviser.advise(seen, brief);
    } catch (RuntimeException fault) {
      LOG.debug("a fault in the core", fault);
      throw new LineRefused(
          "could not be decided by a fault of the program (%s), and changed nothing"
              .formatted(fault));
    }
  }

  private LineFormat json() {
    Set<String> tanks = bench.tanks().keySet();
    return (line, cups) -> Optional.of(ObservationReader.read(line, cups, tanks));
  }

  private static void write(String answer, OutputStream out) throws IOException {
    out.write(answer.getBytes(StandardCharsets.UTF_8));
    out.flush();
  }
}
