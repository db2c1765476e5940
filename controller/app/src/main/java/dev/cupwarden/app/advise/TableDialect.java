package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.units.Quoted;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * How a spreadsheet of some country writes a table: what stands between cells, and with it whether
 * a comma may begin a decimal part.
 *
 * @param separator comma, semicolon or tab
 */
record TableDialect(char separator) {
  private static final String SEPARATORS = ";\t,";

  /** A first line by which some spreadsheets tell one another. */
  private static final Pattern SAYS = Pattern.compile("(?i)sep=([,;\t])");

  private static final Pattern NUMBER =
      Pattern.compile("[-+]?[0-9]{1,15}(\\.[0-9]{0,15})?([eE][-+]?[0-9]{1,3})?");

  /** What a line says of the separator, if it says nothing else. */
  static Optional<TableDialect> said(String line) {
    return Optional.of(SAYS.matcher(line.strip()))
        .filter(java.util.regex.Matcher::matches)
        .map(says -> new TableDialect(says.group(1).charAt(0)));
  }

  /** By a header: a semicolon or tab in it stands between columns, as no name has one. */
  static TableDialect of(String header) {
    char found =
        (char) SEPARATORS.chars().filter(each -> header.indexOf(each) >= 0).findFirst().orElse(',');
    return new TableDialect(found);
  }

  List<String> cells(String line) throws LineRefused {
    if (line.isBlank()) {
      throw new LineRefused("is blank: expected cells between %s".formatted(separators()));
    }
    CSVFormat format =
        CSVFormat.RFC4180.builder().setDelimiter(separator).setIgnoreSurroundingSpaces(true).get();
    try (CSVParser csv = CSVParser.parse(line, format)) {
      List<CSVRecord> records = csv.getRecords();
      if (records.size() != 1) {
        throw new LineRefused("is not one row of a table");
      }
      return records.get(0).toList();
    } catch (IOException | UncheckedIOException broken) {
      throw new LineRefused("has a quote that is not closed, or stands in the midst of a cell");
    }
  }

  String separators() {
    return switch (separator) {
      case ';' -> "semicolons";
      case '\t' -> "tabs";
      default -> "commas";
    };
  }

  /**
   * A number; with a comma before its decimals where none stands between cells.
   *
   * @param column for a refusal
   */
  double number(String column, String cell) throws LineRefused {
    boolean commaIsPoint = separator != ',' && cell.indexOf('.') < 0;
    String written = commaIsPoint ? cell.replace(',', '.') : cell;
    if (!NUMBER.matcher(written).matches()) {
      throw new LineRefused(
          "%s: %s is not a number: expected one such as %s, or nothing"
              .formatted(column, Quoted.text(cell), separator == ',' ? "312.4" : "312,4 or 312.4"));
    }
    return Double.parseDouble(written);
  }
}
