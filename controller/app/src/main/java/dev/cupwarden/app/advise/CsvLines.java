package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.AmbientReading;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.ObservationDraft;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quoted;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * A table, as a spreadsheet writes it: the first line names the columns, each line after it is one
 * time. The header gets no answer unless it is wrong; then every line is refused, as none can be
 * understood.
 *
 * <p>Columns are {@code at}, which comes first, {@code air_c}, {@code rh_pct}, {@code root_c},
 * {@code light}, a cup's name for its gross grams, {@code theta:} with a cup's name, {@code tank:}
 * with a tank's. {@code cup:} may stand before a cup's name, and must where the name is also that
 * of another column. An empty cell was not read.
 */
final class CsvLines implements LineFormat {
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setIgnoreSurroundingSpaces(true).get();
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?[0-9]{1,15}(\\.[0-9]{0,15})?([eE][-+]?[0-9]{1,3})?");

  private final ZoneId zone;
  private final Set<String> tanks;
  private List<Column> columns;
  private String brokenHeader;

  /**
   * @param zone of times that are written without one
   */
  CsvLines(ZoneId zone, Set<String> tanks) {
    this.zone = zone;
    this.tanks = tanks;
  }

  /** Whether a first line looks like a header. */
  static boolean isHeader(String line) {
    return line.matches("\\s*(at|\"at\")\\s*([,;\\t].*)?");
  }

  @Override
  public Optional<Observation> read(String line, Set<String> cups) throws LineRefused {
    if (brokenHeader != null) {
      throw new LineRefused("cannot be read without a right header: " + brokenHeader);
    }
    if (columns == null) {
      try {
        columns = header(line, cups);
      } catch (LineRefused wrong) {
        brokenHeader = wrong.getMessage();
        throw wrong;
      }
      return Optional.empty();
    }
    return Optional.of(row(line, cups));
  }

  /** Puts the text of one cell where it belongs. */
  private interface Target {
    void put(ObservationDraft draft, String cell) throws LineRefused;
  }

  private record Column(String name, Target target) {}

  private List<Column> header(String line, Set<String> cups) throws LineRefused {
    List<Column> named = new ArrayList<>();
    Set<String> taken = new HashSet<>();
    for (String name : cells(line)) {
      String place = "column %d %s".formatted(named.size() + 1, Quoted.text(name));
      if (named.isEmpty() && !name.equals("at")) {
        throw new LineRefused(place + ": expected at, and commas between the columns");
      }
      Column column = new Column(name, target(name, place, cups));
      if (!taken.add(isOwn(name) ? name : "cup:" + name)) {
        throw new LineRefused(place + " is given twice");
      }
      named.add(column);
    }
    return named;
  }

  /** Whether a name says by itself what is in its column; other names are cups. */
  private static boolean isOwn(String name) {
    return name.equals("at") || name.contains(":") || AmbientReading.of(name).isPresent();
  }

  private Target target(String name, String place, Set<String> cups) throws LineRefused {
    if (name.equals("at")) {
      return (draft, cell) -> SpreadsheetTime.put(draft, cell, zone);
    }
    Optional<AmbientReading> ambient = AmbientReading.of(name);
    if (ambient.isPresent()) {
      return (draft, cell) -> draft.ambient(ambient.get(), number(name, cell));
    }
    int colon = name.indexOf(':');
    String part = name.substring(colon + 1);
    return switch (colon < 0 ? "cup" : name.substring(0, colon)) {
      case "cup" -> {
        require(place, part, cups, "a cup of this bench, nor one of the other columns");
        yield (draft, cell) -> draft.massG(part, number(name, cell));
      }
      case "theta" -> {
        require(place, part, cups, "a cup of this bench");
        yield (draft, cell) -> draft.theta(part, number(name, cell));
      }
      case "tank" -> {
        require(place, part, tanks, "a tank of this bench");
        yield (draft, cell) -> draft.tankMl(part, number(name, cell));
      }
      default -> throw new LineRefused(place + ": expected cup:, theta: or tank: before a name");
    };
  }

  private static void require(String place, String part, Set<String> known, String what)
      throws LineRefused {
    if (!known.contains(part)) {
      throw new LineRefused(
          "%s is not %s; known: %s".formatted(place, what, Names.list(new TreeSet<>(known))));
    }
  }

  private Observation row(String line, Set<String> cups) throws LineRefused {
    List<String> cells = cells(line);
    if (cells.size() != columns.size()) {
      throw new LineRefused(
          "has %d cells: expected %d, as in the header".formatted(cells.size(), columns.size()));
    }
    ObservationDraft draft = new ObservationDraft(cups, tanks);
    for (int i = 0; i < cells.size(); i++) {
      if (!cells.get(i).isEmpty()) {
        columns.get(i).target().put(draft, cells.get(i));
      }
    }
    return draft.finish();
  }

  private static double number(String column, String cell) throws LineRefused {
    if (!NUMBER.matcher(cell).matches()) {
      throw new LineRefused(
          "%s: %s is not a number: expected one such as 312.4, or nothing"
              .formatted(column, Quoted.text(cell)));
    }
    return Double.parseDouble(cell);
  }

  private static List<String> cells(String line) throws LineRefused {
    if (line.isBlank()) {
      throw new LineRefused("is blank: expected cells between commas");
    }
    try (CSVParser csv = CSVParser.parse(line, FORMAT)) {
      List<CSVRecord> records = csv.getRecords();
      if (records.size() != 1) {
        throw new LineRefused("is not one row of a table");
      }
      return records.get(0).toList();
    } catch (IOException | UncheckedIOException broken) {
      throw new LineRefused("has a quote that is not closed, or stands in the midst of a cell");
    }
  }
}
