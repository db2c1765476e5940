package dev.cupwarden.app.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Dose;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.state.BenchState;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Instant;
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
   * @param state the state it starts from
   * @param version of the program
   */
  public record Start(Instant at, String bench, BenchState state, String version) {}

  /**
   * A pass put down before the pump started.
   *
   * @param id in the journal
   */
  public record Intent(long id, Advice.Pass pass) {}

  private final Path file;
  private final Sql sql;
  private final EventNumbering numbering;
  private final KeptState state;
  private final PassRecords passes;
  private final ReplayStarts starts;
  private final Inbox inbox;
  private final TickMark mark;
  private long lastTick;
  private long marked;
  private String unmarked;

  private Journal(Path file, Connection connection) {
    this.file = file;
    this.sql = new Sql(connection);
    this.numbering = new EventNumbering(sql);
    this.state = new KeptState(sql);
    this.passes = new PassRecords(sql, numbering);
    this.starts = new ReplayStarts(sql, numbering);
    this.inbox = new Inbox(sql);
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

  /**
   * Where the bench was, unless nothing has ever been written.
   *
   * @throws JournalException also when this program does not understand the state
   */
  public Optional<Restored> restored() throws JournalException {
    Optional<KeptState.Raw> raw = sql.inTransaction("reading the state", state::read);
    return raw.isEmpty() ? Optional.empty() : Optional.of(raw.get().restored());
  }

  /**
   * Why this journal does not hold all that was written to it, if it does not: it was cut short,
   * emptied, or put back from a copy.
   */
  public Optional<String> lost() throws JournalException {
    long known = sql.inTransaction("reading the last tick", state::tick);
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
    return sql.inTransaction("reading the last start", starts::lastBench);
  }

  /**
   * Whether the bench was only watched since the last start, even if that came to no tick.
   *
   * @throws JournalException also when this program does not understand the state
   */
  public boolean watchOnly() throws JournalException {
    Optional<byte[]> begun = sql.inTransaction("reading the last start", starts::lastState);
    return begun.isPresent() && Cbor.read(begun.get()).orders().watchOnly();
  }

  /** What was told of an alert, and when. */
  public record ToldAlert(Instant at, AlertNotice notice) {}

  /** The last that was told of an alert of the whole bench, if it is still in the journal. */
  public Optional<ToldAlert> lastAlert(String code) throws JournalException {
    Optional<String[]> told =
        sql.reading(
            "reading alerts",
            () ->
                sql.first(
                    "SELECT at, data FROM event WHERE kind = 'alert' AND cup IS NULL"
                        + " AND json_extract(data, '$.code') = ? ORDER BY seq DESC LIMIT 1",
                    row -> new String[] {row.getString(1), row.getString(2)},
                    code));
    try {
      return told.isPresent()
          ? Optional.of(
              new ToldAlert(
                  Instant.parse(told.get()[0]),
                  Json.MAPPER.readValue(told.get()[1], AlertNotice.class)))
          : Optional.empty();
    } catch (JsonProcessingException damaged) {
      throw JournalException.unreadableState(damaged);
    }
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
          List<Intent> open = passes.closeWhatACrashLeft(start.at());
          starts.add(state.tick() + 1, "start", start);
          return open;
        });
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
    return sql.inTransaction("reading what was given", () -> passes.ranSince(since));
  }

  /**
   * One tick, all of it or nothing; on the disk when this returns. The tick's number is marked
   * beside it; where that fails the tick has happened all the same, and {@link #unmarked} says why
   * it is not marked.
   *
   * @return the intents, in the order to give them
   */
  public List<Intent> commit(TickEntry entry) throws JournalException {
    Committed committed = sql.inTransaction("writing a tick", () -> put(entry));
    state.committed();
    lastTick = committed.tick();
    markAgain();
    return committed.intents();
  }

  /**
   * Marks the last tick, if it is not marked.
   *
   * @return whether it is
   */
  public boolean markAgain() {
    if (lastTick != marked) {
      try {
        mark.write(lastTick);
        marked = lastTick;
        unmarked = null;
      } catch (IOException e) {
        unmarked = "journal: %s cannot be written: %s".formatted(mark.file(), e.getMessage());
      }
    }
    return unmarked == null;
  }

  /**
   * Why the last tick is not marked. If the journal were cut short now, it would not be seen that
   * what the tick gave is missing; so nothing may be given.
   */
  public Optional<String> unmarked() {
    return Optional.ofNullable(unmarked);
  }

  /**
   * Brings the log into the file and empties it. One flipped bit in the log loses all that was
   * written to it after; so it must not grow old.
   *
   * @return false when somebody else reads the journal just now
   */
  public boolean checkpoint() throws JournalException {
    return sql.askedAlone("emptying the log", "PRAGMA wal_checkpoint(TRUNCATE)") == 0;
  }

  private record Committed(long tick, List<Intent> intents) {}

  private Committed put(TickEntry entry) throws SQLException {
    long tick = state.tick() + 1;
    String at = entry.at().toString();
    sql.update("INSERT INTO observation VALUES (?, ?, ?)", tick, at, entry.line());
    state.put(tick, entry.at(), entry.state());
    if (entry.senml().isPresent()) {
      sql.update("INSERT INTO pack VALUES (?, ?, ?)", tick, at, entry.senml().get());
    }
    inbox.take(tick, entry.orderIds());
    for (JournalEvent event : entry.events()) {
      numbering.add(event);
    }
    return new Committed(tick, passes.add(tick, entry.at(), entry.passes()));
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
          passes.close(intent, at, ran, detail);
          return null;
        });
  }

  /** Puts down what happened apart from a tick. */
  public void note(JournalEvent event) throws JournalException {
    sql.inTransaction(
        "writing an event",
        () -> {
          numbering.add(event);
          return null;
        });
  }

  /** Orders that no tick has taken, in the order they came. */
  public List<JsonNode> waitingOrders() throws JournalException {
    return sql.inTransaction("reading orders", inbox::waiting);
  }

  /** The order that has waited longest, as a name of what the next tick takes up. */
  public Optional<String> oldestOrder() throws JournalException {
    return sql.inTransaction("looking for orders", inbox::oldest);
  }

  /** Refuses those waiting orders that are stale or too long, without reading what they say. */
  public void refuseUnfitOrders(Instant now) throws JournalException {
    sql.inTransaction(
        "refusing orders",
        () -> {
          for (Receipt receipt : inbox.refuseUnfit(state.tick(), now)) {
            numbering.add(JournalEvent.of(now, receipt));
          }
          return null;
        });
  }

  /**
   * Puts all waiting orders into a file and refuses them: nothing could be done with them in hand.
   *
   * @return the file; none where no order waits
   * @throws JournalException when the file or the journal cannot be written; then they wait on
   */
  public Optional<Path> setAside(Instant now) throws JournalException {
    List<JsonNode> waiting = waitingOrders();
    if (waiting.isEmpty()) {
      return Optional.empty();
    }
    Path to = SetAside.write(file, now, waiting);
    List<String> ids = waiting.stream().map(order -> order.path("id").asText()).toList();
    sql.inTransaction(
        "setting orders aside",
        () -> {
          inbox.take(state.tick(), ids);
          for (String id : ids) {
            numbering.add(JournalEvent.of(now, SetAside.receipt(id, to)));
          }
          return null;
        });
    return Optional.of(to);
  }

  /**
   * At a day's end: a new place to replay from, then everything older than it may be goes.
   *
   * @param day the start record that replay of what stays can begin from
   */
  public void endDay(Start day, JournalRetention retention) throws JournalException {
    JournalTrimming trimming = new JournalTrimming(sql, numbering);
    sql.inTransaction(
        "trimming",
        () -> {
          starts.add(state.tick() + 1, "day", day);
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
