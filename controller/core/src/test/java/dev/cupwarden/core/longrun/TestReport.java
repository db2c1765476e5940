package dev.cupwarden.core.longrun;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.TreeMap;

/** What long runs saw, in {@code controller/TESTING.md}: each run puts in its own section. */
public final class TestReport {
  /** From the folder of any module. */
  private static final Path PAGE = Path.of("..", "..", "controller", "TESTING.md");

  private static final String HEAD =
      """
      # What long runs saw

      Made by `mvn -Plong verify`: each long test puts in its own section when it ends well. A section is as old as its date.
      """;

  private TestReport() {}

  /**
   * Puts in a section in place of what it said before; without {@code -Dreport=true} prints it.
   *
   * @param took how long the run was
   * @param text what it saw, with the range of its seeds
   */
  public static void put(String section, Duration took, String text) throws IOException {
    String said =
        "%s, in %d min %d s on %d cores: %s"
            .formatted(
                LocalDate.now(ZoneOffset.UTC),
                took.toMinutes(),
                took.toSecondsPart(),
                Runtime.getRuntime().availableProcessors(),
                text.strip());
    System.out.println(section + ": " + said);
    if (Boolean.getBoolean("report")) {
      Files.writeString(
          PAGE, with(Files.exists(PAGE) ? Files.readString(PAGE) : "", section, said));
    }
  }

  /** The page with that section in place of the one of its name, sections in order of name. */
  static String with(String page, String section, String said) {
    Map<String, String> sections = new TreeMap<>();
    String[] parts = page.split("(?m)^## ", -1);
    for (int i = 1; i < parts.length; i++) {
      int end = parts[i].indexOf('\n');
      sections.put(parts[i].substring(0, end), parts[i].substring(end).strip());
    }
    sections.put(section, said);
    StringBuilder next = new StringBuilder(HEAD);
    sections.forEach(
        (name, text) -> next.append("\n## ").append(name).append("\n\n").append(text).append('\n'));
    return next.toString();
  }
}
