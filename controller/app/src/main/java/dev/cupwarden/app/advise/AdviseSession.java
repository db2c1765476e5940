package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationReader;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Place;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Lines in, lines out, in lock-step: each input line gets exactly one output line, flushed before
 * the next is read, but for the header of a table, which gets none unless it is wrong.
 */
final class AdviseSession {
  private static final Logger LOG = LoggerFactory.getLogger(AdviseSession.class);

  private final Bench bench;
  private final Adviser adviser;
  private final boolean brief;
  private LineFormat format;

  /**
   * @param brief whether to leave the state of the cups out
   * @param csv whether to take the input for a table even where its first line does not look so
   */
  AdviseSession(Bench bench, Adviser adviser, boolean brief, boolean csv) {
    this.bench = bench;
    this.adviser = adviser;
    this.brief = brief;
    this.format = csv ? table() : null;
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
    boolean any = false;
    for (BoundedLines.Line line = lines.next(); line != null; line = lines.next()) {
      any = true;
      try {
        Optional<Advice> advice = answer(line);
        if (advice.isPresent()) {
          write(advice.get(), out);
        }
      } catch (LineRefused refused) {
        allRead = false;
        writeError(line.number(), refused.getMessage(), out);
      }
    }
    if (!any) {
      writeError(1, "is missing: the input is empty", out);
    }
    return any && allRead;
  }

  private Optional<Advice> answer(BoundedLines.Line line) throws LineRefused {
    String text = line.text();
    if (format == null) {
      format = CsvLines.isHeader(text) ? table() : json();
    }
    Optional<Observation> seen = format.read(text, adviser.cups());
    return seen.isEmpty() ? Optional.empty() : Optional.of(advise(seen.get()));
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

  private LineFormat table() {
    ZoneId zone = bench.place().map(Place::zone).orElse(ZoneOffset.UTC);
    return new CsvLines(zone, bench.tanks().keySet());
  }

  private LineFormat json() {
    Set<String> tanks = bench.tanks().keySet();
    return (line, cups) -> Optional.of(ObservationReader.read(line, cups, tanks));
  }

  private static void writeError(long number, String sentence, OutputStream out)
      throws IOException {
    write(Map.of("error", "line " + number + ": " + sentence), out);
  }

  private static void write(Object answer, OutputStream out) throws IOException {
    out.write(Json.MAPPER.writeValueAsBytes(answer));
    out.write('\n');
    out.flush();
  }
}
