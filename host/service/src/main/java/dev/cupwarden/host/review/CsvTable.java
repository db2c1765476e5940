package dev.cupwarden.host.review;

import java.io.IOException;
import java.io.Writer;
import java.util.Arrays;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * A table as CSV (RFC 4180). No text in it is run as a formula by a spreadsheet: names come from
 * outside, and each cell of text passes here. Numbers and times are none and stay as they are.
 */
final class CsvTable {
  /** By which a formula begins, also in their full width: OWASP, CSV injection. */
  private static final String BEGINS_A_FORMULA = "=+-@\uFF1D\uFF0B\uFF0D\uFF20";

  /** Some spreadsheets drop them from the front and then look again. */
  private static final String DROPPED = "\t\r\n";

  private final CSVPrinter printer;

  CsvTable(Writer out, String... heads) throws IOException {
    printer = new CSVPrinter(out, CSVFormat.RFC4180.builder().setHeader(heads).get());
  }

  /** One row, a value for each head; null for nothing. */
  void row(Object... cells) throws IOException {
    printer.printRecord(
        Arrays.stream(cells)
            .map(cell -> cell instanceof String text ? harmless(text) : cell)
            .toArray());
  }

  private static String harmless(String text) {
    String first = text.stripLeading();
    boolean formula = !first.isEmpty() && BEGINS_A_FORMULA.indexOf(first.charAt(0)) >= 0;
    boolean dropped = !text.isEmpty() && DROPPED.indexOf(text.charAt(0)) >= 0;
    return formula || dropped ? "'" + text : text;
  }

  void flush() throws IOException {
    printer.flush();
  }
}
