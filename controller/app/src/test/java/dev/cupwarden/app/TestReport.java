package dev.cupwarden.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.TreeMap;

/** What long runs saw, in {@code controller/TESTING.md}: each run puts in its own section. */
public final class TestReport {
  private static final Path PAGE = Path.of("../TESTING.md");
  private static final String HEAD =
      """
      # What long runs saw

      Made by `mvn -Plong verify`: each long test puts in its own section when it ends well. A section is as old as its date.
      """;

  private TestReport() {}

  /** Puts in a section in place of what it said before; without {@code -Dreport=true} prints it. */
  public static void put(String section, String text) throws IOException {
    System.out.println(section + ": " + text);
    if (!Boolean.getBoolean("report")) {
      return;
    }
    Map<String, String> sections = new TreeMap<>();
    if (Files.exists(PAGE)) {
      String[] parts = Files.readString(PAGE).split("(?m)^## ", -1);
      for (int i = 1; i < parts.length; i++) {
        int end = parts[i].indexOf('\n');
        sections.put(parts[i].substring(0, end), parts[i].substring(end).strip());
      }
    }
    sections.put(section, LocalDate.now(ZoneOffset.UTC) + ": " + text);
    StringBuilder page = new StringBuilder(HEAD);
    sections.forEach(
        (name, said) -> page.append("\n## ").append(name).append("\n\n").append(said).append('\n'));
    Files.writeString(PAGE, page);
  }
}
