package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationDraft;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;

/**
 * A table, as a spreadsheet writes it: the first line names the columns ({@link TableColumns}),
 * each line after it is one time, or one weighing. The header gets no answer unless it is wrong;
 * then every line is refused, as none can be understood. An empty cell was not read.
 */
final class CsvLines implements LineFormat {
  private final SpreadsheetTime times;
  private final Set<String> tanks;
  private final Consumer<String> aside;
  private final Set<String> said = new HashSet<>();
  private List<String> notes = List.of();
  private TableDialect dialect;
  private TableColumns columns;
  private String brokenHeader;

  /** Where each weighing has a row: what rows of one time have said so far. */
  private TableRow gathered;

  private String gatheredAt;

  /**
   * @param aside takes each sentence on what is taken for granted, once
   */
  CsvLines(SpreadsheetTime times, Set<String> tanks, Consumer<String> aside) {
    this.times = times;
    this.tanks = tanks;
    this.aside = aside;
  }

  /** Whether a first line looks like a header, or tells how the header is written. */
  static boolean isHeader(String line) {
    if (line.isBlank()) {
      return false;
    }
    try {
      return TableDialect.said(line).isPresent()
          || TableHeading.of(TableDialect.of(line).cells(line).get(0)).isTime();
    } catch (LineRefused noRow) {
      return false;
    }
  }

  @Override
  public Optional<Observation> read(String line, Set<String> cups) throws LineRefused {
    if (brokenHeader != null) {
      throw new LineRefused("cannot be read without a right header: " + brokenHeader);
    }
    if (columns == null) {
      readHeader(line, cups);
      return Optional.empty();
    }
    List<String> cells = dialect.cells(line);
    columns.requireWhole(cells);
    return columns.isOneRowAWeighing() ? weighing(cells, cups) : Optional.of(row(cells, cups));
  }

  private void readHeader(String line, Set<String> cups) throws LineRefused {
    if (dialect == null) {
      Optional<TableDialect> said = TableDialect.said(line);
      dialect = said.orElseGet(() -> TableDialect.of(line));
      if (said.isPresent()) {
        return;
      }
    }
    try {
      columns = TableColumns.of(dialect, dialect.cells(line), cups, tanks);
    } catch (LineRefused wrong) {
      brokenHeader = wrong.getMessage();
      throw wrong;
    }
  }

  private Observation row(List<String> cells, Set<String> cups) throws LineRefused {
    TableRow row = begin(columns.timeOf(cells), cups);
    columns.put(row, cells);
    return finish(row);
  }

  private TableRow begin(String time, Set<String> cups) throws LineRefused {
    ObservationDraft draft = new ObservationDraft(cups, tanks);
    if (!time.isEmpty()) {
      times.put(draft, time);
      times.takenForGranted(time).filter(said::add).ifPresent(aside);
    }
    return new TableRow(draft, cups);
  }

  /** What the rows before said, once one has another time. */
  private Optional<Observation> weighing(List<String> cells, Set<String> cups) throws LineRefused {
    String time = columns.timeOf(cells);
    if (gathered != null && time.equals(gatheredAt)) {
      columns.put(gathered, cells);
      return Optional.empty();
    }
    TableRow next = begin(time, cups);
    columns.put(next, cells);
    var unused = next.draft().finish(); // What it lacks is told of its own line.
    Optional<Observation> before = end();
    gathered = next;
    gatheredAt = time;
    return before;
  }

  @Override
  public Optional<Observation> end() throws LineRefused {
    if (gathered == null) {
      return Optional.empty();
    }
    TableRow whole = gathered;
    gathered = null;
    return Optional.of(finish(whole));
  }

  private Observation finish(TableRow row) throws LineRefused {
    notes = row.notes();
    return row.draft().finish();
  }

  @Override
  public List<String> notes() {
    return notes;
  }
}
