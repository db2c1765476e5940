package dev.cupwarden.app.journal;

import dev.cupwarden.core.state.BenchState;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Reads a journal back: what was seen, line for line as {@code advise} reads it, and from where a
 * replay can begin. Works beside a controller that is running.
 */
public final class JournalExport implements AutoCloseable {
  /**
   * A place to replay from.
   *
   * @param firstTick the first tick after it
   * @param cause {@code start} of the program, or the end of a {@code day}
   */
  public record StartEntry(long firstTick, String at, String cause, String epoch, String version) {}

  /**
   * What a tick saw.
   *
   * @param line as {@code advise} reads it
   */
  record Seen(long tick, String line) {}

  /** Held in memory at once; a day of a large bench would not fit. */
  private static final int MOST_SEEN = 100;

  /**
   * A pass as it was put down.
   *
   * @param outcome {@code given}, {@code failed}, {@code unknown}, or null while the pump runs
   */
  public record Pass(
      long tick,
      String at,
      String cup,
      double plainMl,
      double feedMl,
      double strength,
      String why,
      String outcome) {}

  private final Sql sql;

  private JournalExport(Sql sql) {
    this.sql = sql;
  }

  /**
   * @throws JournalException when there is no such journal or it cannot be read
   */
  public static JournalExport open(Path file) throws JournalException {
    if (!Files.isRegularFile(file)) {
      throw new JournalException(
          JournalException.Trouble.UNUSABLE, "journal: there is no " + file, null);
    }
    return new JournalExport(new Sql(JournalFile.openToRead(file)));
  }

  /**
   * Writes all of it to another file, by SQLite's own means, while the controller may run on.
   *
   * @param to must not be there
   */
  public void backup(Path to) throws JournalException {
    try {
      if (!Files.exists(to)) {
        PrivateFile.make(to); // SQLite writes into an empty file, and leaves it its rights.
      }
    } catch (IOException e) {
      throw new JournalException(
          JournalException.Trouble.UNUSABLE,
          "journal: the copy " + to + " cannot be made: " + e.getMessage(),
          e);
    }
    sql.alone("writing the copy " + to, "VACUUM INTO ?", to.toString());
  }

  public List<StartEntry> starts() throws JournalException {
    return sql.reading(
        "reading the starts",
        () ->
            sql.list(
                "SELECT first_tick, at, cause, epoch, version FROM start" + " ORDER BY rowid",
                row ->
                    new StartEntry(
                        row.getLong(1),
                        row.getString(2),
                        row.getString(3),
                        row.getString(4),
                        row.getString(5))));
  }

  /**
   * Whether the bench was only watched since the last start; false before the first.
   *
   * @throws JournalException also when this program does not understand the state
   */
  public boolean watchOnly() throws JournalException {
    List<StartEntry> starts = starts();
    return !starts.isEmpty() && stateAt(starts.get(starts.size() - 1)).orders().watchOnly();
  }

  /** The bench file's text as of that start. */
  String benchAt(StartEntry start) throws JournalException {
    return at(start, "bench", row -> row.getString(1));
  }

  /**
   * The state a replay from there begins with.
   *
   * @throws JournalException also when this program does not understand it
   */
  BenchState stateAt(StartEntry start) throws JournalException {
    return Cbor.read(at(start, "state", row -> row.getBytes(1)));
  }

  private <T> T at(StartEntry start, String column, Sql.Row<T> make) throws JournalException {
    return sql.reading(
        "reading a start",
        () ->
            sql.first(
                    "SELECT "
                        + column
                        + " FROM start WHERE first_tick = ? AND at = ? ORDER BY rowid DESC LIMIT 1",
                    make,
                    start.firstTick(),
                    start.at())
                .orElseThrow(() -> new SQLException("it has gone since")));
  }

  /** The last place to replay from that is not after that moment. */
  public Optional<StartEntry> lastStartBy(Instant when) throws JournalException {
    return starts().stream()
        .filter(start -> !Instant.parse(start.at()).isAfter(when))
        .reduce((earlier, later) -> later);
  }

  /** The next of what was seen from a tick on and up to the next start; none at its end. */
  List<Seen> seen(StartEntry start, long fromTick) throws JournalException {
    return sql.reading(
        "reading what was seen",
        () ->
            sql.list(
                "SELECT tick, line FROM observation WHERE tick >= ? AND tick < coalesce((SELECT"
                    + " min(first_tick) FROM start WHERE first_tick > ?), 9223372036854775807)"
                    + " ORDER BY tick LIMIT ?",
                row -> new Seen(row.getLong(1), row.getString(2)),
                fromTick,
                start.firstTick(),
                MOST_SEEN));
  }

  /** All passes, in the order they were put down. */
  public List<Pass> passes() throws JournalException {
    return sql.reading(
        "reading the passes",
        () ->
            sql.list(
                "SELECT tick, at, cup, plain_ml, feed_ml, strength, why, outcome FROM pass"
                    + " ORDER BY id",
                row ->
                    new Pass(
                        row.getLong(1),
                        row.getString(2),
                        row.getString(3),
                        row.getDouble(4),
                        row.getDouble(5),
                        row.getDouble(6),
                        row.getString(7),
                        row.getString(8))));
  }

  /**
   * The state after the last tick; none before the first.
   *
   * @throws JournalException also when this program does not understand it
   */
  public Optional<BenchState> state() throws JournalException {
    Optional<KeptState.Raw> raw = sql.reading("reading the state", new KeptState(sql)::read);
    return raw.isEmpty() ? Optional.empty() : Optional.of(raw.get().restored().state());
  }

  /** Writes what was seen from a tick on, one line of {@code advise} input each. */
  public void lines(long fromTick, Appendable to) throws JournalException {
    try (PreparedStatement query =
        sql.connection()
            .prepareStatement("SELECT line FROM observation WHERE tick >= ? ORDER BY tick")) {
      query.setLong(1, fromTick);
      try (ResultSet row = query.executeQuery()) {
        while (row.next()) {
          to.append(row.getString(1)).append('\n');
        }
      }
    } catch (SQLException e) {
      throw JournalException.of("reading what was seen", e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void close() throws JournalException {
    sql.close();
  }
}
