package dev.cupwarden.core.checks;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * Rows of the open data sets among the test resources, each beside a PROVENANCE.md with its origin
 * and licence.
 */
public final class OpenData {
  private OpenData() {}

  /** The cells of a file below {@code data/}, without its heading. */
  public static List<List<String>> rows(String file) {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(
                Objects.requireNonNull(OpenData.class.getResourceAsStream("/data/" + file), file),
                StandardCharsets.UTF_8))) {
      return reader.lines().skip(1).map(line -> Arrays.asList(line.split(",", -1))).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
