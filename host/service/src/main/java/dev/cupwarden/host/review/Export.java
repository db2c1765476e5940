package dev.cupwarden.host.review;

import dev.cupwarden.host.HostException;
import dev.cupwarden.host.store.Store;
import java.io.IOException;
import java.io.Writer;
import java.time.Instant;
import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Collectors;

/** What can be taken out of the store for other programs. */
@SuppressWarnings("ImmutableEnumChecker") // Its forms are references to methods without state.
public enum Export {
  READINGS("readings.csv", "text/csv", EventTables::readings),
  DOSES("doses.csv", "text/csv", EventTables::doses),
  ALERTS("alerts.csv", "text/csv", EventTables::alerts),
  NOTES("notes.jsonl", "application/jsonl", NoteLines::write),
  SEASON("season.csv", "text/csv", SeasonTable::write),
  SENML("readings.senml.json", "application/senml+json", ReadingLines::senml),
  ADVISE("advise.jsonl", "application/jsonl", ReadingLines::advise);

  private final String fileName;
  private final String contentType;
  private final Form form;

  /** Writes what is asked for, piece by piece. */
  @FunctionalInterface
  interface Form {
    void write(Store store, Asked asked, Writer out) throws IOException;
  }

  /**
   * Of which bench and time.
   *
   * @param from inclusive
   * @param to exclusive
   */
  public record Asked(String bench, Instant from, Instant to) {}

  Export(String fileName, String contentType, Form form) {
    this.fileName = fileName;
    this.contentType = contentType;
    this.form = form;
  }

  /** Found by the name of its file, or by that without its ending. */
  public static Optional<Export> named(String name) {
    return Arrays.stream(values())
        .filter(each -> each.fileName.equals(name) || each.shortName().equals(name))
        .findFirst();
  }

  public String shortName() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }

  public String fileName() {
    return fileName;
  }

  public String contentType() {
    return contentType;
  }

  /** All of them, as they read in a sentence. */
  public static String names() {
    return Arrays.stream(values()).map(Export::shortName).collect(Collectors.joining(", "));
  }

  /**
   * Writes it all.
   *
   * @throws HostException if there is no such bench
   */
  public void write(Store store, Asked asked, Writer out) throws IOException {
    if (store.benches().find(asked.bench()).isEmpty()) {
      throw new HostException("There is no bench " + asked.bench() + " here.");
    }
    form.write(store, asked, out);
    out.flush();
  }
}
