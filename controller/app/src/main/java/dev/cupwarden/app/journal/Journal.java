package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.BenchState;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The loop's side of the journal. The order within a tick is: read, decide, {@link #commit} (all of
 * the tick in one transaction, on the disk when it returns), run the pump, {@link #outcome}. A
 * power cut between the last two leaves an intent without outcome, which {@link #start} finds.
 */
public final class Journal implements AutoCloseable {
  /**
   * Where the bench was when the journal was last written.
   *
   * @param tick number of the last tick
   * @param at its time
   * @param state the bench's state after it
   */
  public record Restored(long tick, Instant at, BenchState state) {}

  /**
   * What is told of the program's start.
   *
   * @param at when
   * @param bench the bench file's text
   * @param state the state it starts from, as JSON
   * @param version of the program
   */
  public record Start(Instant at, String bench, String state, String version) {}

  /**
   * A pass put down before the pump started.
   *
   * @param id in the journal
   */
  public record Intent(long id, Advice.Pass pass) {}

  private final Path file;
  private final Sql sql;
  private final Numbering numbering;
  private final TickMark mark;

  private Journal(Path file, Connection connection) {
    this.file = file;
    this.sql = new Sql(connection);
    this.numbering = new Numbering(sql);
    this.mark = new TickMark(file);
  }

  /**
   * Opens the journal, making it when there is none.
   *
   * @throws JournalException when it is damaged, newer than this program, or not a journal
   */
  public static Journal open(Path file) throws JournalException {
    return new Journal(file, JournalFile.open(file));
  }

  /** Where the bench was, unless nothing has ever been written. */
  public Optional<Restored> restored() throws JournalException {
    Optional<Kept> kept =
        sql.inTransaction(
            "reading the state",
            () ->
                sql.first(
                    "SELECT tick, at, state FROM state",
                    row -> new Kept(row.getLong(1), row.getString(2), row.getBytes(3))));
    if (kept.isEmpty()) {
      return Optional.empty();
    }
    Instant at = Instant.parse(kept.get().at());
    return Optional.of(new Restored(kept.get().tick(), at, KeptState.read(kept.get().state())));
  }

  @SuppressWarnings(
      "ArrayRecordComponent") // Goes from one line to the next, and is never compared.
  private record Kept(long tick, String at, byte[] state) {}

  /** Number of the last tick; 0 before the first. */
  public long lastTick() throws JournalException {
    return sql.inTransaction(
        "reading the last tick", () -> sql.number("SELECT coalesce(max(tick), 0) FROM state"));
  }

  /**
   * Why this journal does not hold all that was written to it, if it does not: it was cut short,
   * emptied, or put back from a copy.
   */
  public Optional<String> lost() throws JournalException {
    long known = lastTick();
    long written = mark.read().orElse(known);
    return written <= known
        ? Optional.empty()
        : Optional.of(
            "journal: %s ends at tick %d, but tick %d was written; delete %s to go on without"
                    .formatted(file, known, written, mark.file())
                + " what is missing");
  }

  /** The bench file's text as of the last start; none before the first. */
  public Optional<String> lastBench() throws JournalException {
    return sql.inTransaction(
        "reading the last start",
        () ->
            sql.first(
                "SELECT bench FROM start ORDER BY rowid DESC LIMIT 1", row -> row.getString(1)));
  }

  /**
   * Puts down that the program starts, and closes every intent that a crash has left open: its
   * outcome is {@code unknown}, it counts as fully given (the state already says so), and a dose
   * event tells it.
   *
   * @return those intents
   */
  public List<Intent> start(Start start) throws JournalException {
    return sql.inTransaction(
        "writing the start",
        () -> {
          List<Intent> open =
              sql.list(
                  "SELECT id, cup, plain_ml, feed_ml, strength, why FROM pass"
                      + " WHERE outcome IS NULL ORDER BY id",
                  row ->
                      new Intent(
                          row.getLong(1),
                          new Advice.Pass(
                              row.getString(2),
                              row.getDouble(3),
                              row.getDouble(4),
                              row.getDouble(5),
                              row.getString(6))));
          for (Intent intent : open) {
            Advice.Pass pass = intent.pass();
            Dose dose =
                new Dose(
                    pass.cup(),
                    pass.plainMl(),
                    pass.feedMl(),
                    pass.strength(),
                    pass.why(),
                    "unknown");
            close(intent, start.at(), dose, "the controller stopped in its midst");
          }
          record(start, "start");
          return open;
        });
  }

  private void record(Start start, String cause) throws SQLException {
    sql.update(
        "INSERT INTO start (first_tick, at, cause, epoch, version, bench, state)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)",
        sql.number("SELECT tick FROM state") + 1,
        start.at().toString(),
        cause,
        numbering.epoch(),
        start.version(),
        start.bench(),
        start.state());
  }

  /**
   * What the pump moved.
   *
   * @param at when it stopped
   * @param ml by its on-time; of a pass that was cut off, all that was ordered
   */
  public record Ran(Instant at, double ml) {}

  /** What the pump moved since a time, in the order it did. */
  public List<Ran> ranSince(Instant since) throws JournalException {
    return sql.inTransaction(
        "reading what was given",
        () ->
            sql.list(
                "SELECT outcome_at, ran_plain_ml + ran_feed_ml FROM pass"
                    + " WHERE outcome IS NOT NULL AND datetime(outcome_at) >= datetime(?)"
                    + " ORDER BY id",
                row -> new Ran(Instant.parse(row.getString(1)), row.getDouble(2)),
                since.toString()));
  }

  /**
   * One tick, all of it or nothing; on the disk when this returns.
   *
   * @return the intents, in the order to give them
   */
  public List<Intent> commit(TickEntry entry) throws JournalException {
    Committed committed = committed(entry);
    try {
      mark.write(committed.tick());
    } catch (IOException e) {
      throw new JournalException(
          JournalException.Trouble.UNUSABLE,
          "journal: %s cannot be written: %s".formatted(mark.file(), e.getMessage()),
          e);
    }
    return committed.intents();
  }

  private record Committed(long tick, List<Intent> intents) {}

  private Committed committed(TickEntry entry) throws JournalException {
    return sql.inTransaction(
        "writing a tick",
        () -> {
          long tick = sql.number("SELECT tick FROM state") + 1;
          String at = entry.at().toString();
          sql.update("INSERT INTO observation VALUES (?, ?, ?)", tick, at, entry.line());
          sql.update(
              "INSERT OR REPLACE INTO state VALUES (1, ?, ?, ?)",
              tick,
              at,
              KeptState.written(entry.state()));
          if (entry.senml().isPresent()) {
            sql.update("INSERT INTO pack VALUES (?, ?, ?)", tick, at, entry.senml().get());
          }
          for (String id : entry.orderIds()) {
            sql.update("UPDATE inbox SET taken_tick = ? WHERE id = ?", tick, id);
          }
          for (Happening happening : entry.events()) {
            numbering.add(happening);
          }
          List<Intent> intents = new ArrayList<>();
          for (Advice.Pass pass : entry.passes()) {
            intents.add(new Intent(insert(tick, at, pass), pass));
          }
          return new Committed(tick, intents);
        });
  }

  private long insert(long tick, String at, Advice.Pass pass) throws SQLException {
    return sql.first(
            "INSERT INTO pass (tick, at, cup, plain_ml, feed_ml, strength, why)"
                + " VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING id",
            row -> row.getLong(1),
            tick,
            at,
            pass.cup(),
            pass.plainMl(),
            pass.feedMl(),
            pass.strength(),
            pass.why())
        .orElseThrow();
  }

  /**
   * What became of an intent, with the event that tells it.
   *
   * @param ran what the pump moved; its {@code outcome} is {@code given} or {@code failed}
   * @param detail why it failed; null when it did not
   */
  public void outcome(Intent intent, Instant at, Dose ran, String detail) throws JournalException {
    sql.inTransaction(
        "writing an outcome",
        () -> {
          close(intent, at, ran, detail);
          return null;
        });
  }

  private void close(Intent intent, Instant at, Dose ran, String detail) throws SQLException {
    int changed =
        sql.update(
            "UPDATE pass SET outcome = ?, outcome_at = ?, ran_plain_ml = ?, ran_feed_ml = ?,"
                + " detail = ? WHERE id = ? AND outcome IS NULL",
            ran.outcome(),
            at.toString(),
            ran.plainMl(),
            ran.feedMl(),
            detail,
            intent.id());
    if (changed == 1) {
      numbering.add(Happening.of(at, ran));
    }
  }

  /** Puts down what happened apart from a tick. */
  public void note(Happening happening) throws JournalException {
    sql.inTransaction(
        "writing an event",
        () -> {
          numbering.add(happening);
          return null;
        });
  }

  /** Orders that no tick has taken, in the order they came. */
  public List<JsonNode> waitingOrders() throws JournalException {
    return sql.inTransaction(
        "reading orders",
        () ->
            sql.list(
                "SELECT body FROM inbox WHERE taken_tick IS NULL ORDER BY rowid",
                row -> json(row.getString(1))));
  }

  private static JsonNode json(String text) throws SQLException {
    try {
      return Json.MAPPER.readTree(text);
    } catch (JsonProcessingException e) {
      throw new SQLException("an order in the journal is not JSON", e);
    }
  }

  /**
   * At a day's end: a new place to replay from, then everything older than it may be goes.
   *
   * @param day the start record that replay of what stays can begin from
   */
  public void endDay(Start day, Retention retention) throws JournalException {
    Trimming trimming = new Trimming(sql, numbering);
    sql.inTransaction(
        "trimming",
        () -> {
          record(day, "day");
          trimming.run(day.at(), retention);
          return null;
        });
  }

  /** The most pages (4 KiB) the file may have; what would need more fails as on a full disk. */
  void limitPages(int most) throws JournalException {
    sql.inTransaction("limiting the file", () -> sql.number("PRAGMA max_page_count = " + most));
  }

  /** Where the journal lies. */
  public Path file() {
    return file;
  }

  @Override
  public void close() throws JournalException {
    sql.close();
  }
}
