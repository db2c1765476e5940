package dev.cupwarden.app.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.house.SourceTree;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** That each paragraph, list item or row of the notes with a figure in it says where it is from. */
class NotesSourcesTest {
  private static final Path NOTES = SourceTree.ROOT.resolve("hardware-notes");

  /** Made by a run, or of the bench file; and the table of sources itself. */
  private static final Set<String> WITHOUT_SIGNS = Set.of("failures.md", "wires.md", "sources.md");

  private static final Pattern FIGURE =
      Pattern.compile(
          "\\d (?:m?V|[mu]?A|[mkM]?Ohm|m?W|[pnu]F|mL|L|n?s|us|ms|min|h|mm2?|cm|m|k?g|mg|[kM]Pa|%|°C|Nm|ppm|kHz)"
              + "(?![A-Za-z0-9])");

  /** What supplies are called, of whatever value they are in the end. */
  private static final Pattern NAMES_OF_RAILS = Pattern.compile("\\b(?:3\\.3|5|12) V\\b");

  private static final Pattern CODE = Pattern.compile("`[^`]*`");
  private static final Pattern SIGN =
      Pattern.compile("\\([^)]*\\b(m|o|c|E|sim|[DS]\\d+)\\b[^)]*\\)|\\]\\([a-z]+\\.md");
  private static final Pattern OF_A_SOURCE = Pattern.compile("\\b[DS]\\d+\\b");

  private static List<Path> pages() {
    return SourceTree.files(".md").stream()
        .filter(page -> page.getParent().equals(NOTES))
        .filter(page -> !WITHOUT_SIGNS.contains(page.getFileName().toString()))
        .toList();
  }

  /**
   * Rows by themselves, list items and paragraphs as one line each; what is set as code left out.
   */
  private static List<String> blocks(String page) {
    List<String> blocks = new ArrayList<>();
    boolean open = false;
    for (String line : page.lines().toList()) {
      boolean code = line.startsWith("    ");
      if (line.isBlank() || code || line.startsWith("#")) {
        open = false;
      } else if (line.startsWith("|") || line.startsWith("- ") || !open) {
        blocks.add(line);
        open = !line.startsWith("|");
      } else {
        blocks.set(blocks.size() - 1, blocks.get(blocks.size() - 1) + " " + line.strip());
      }
    }
    return blocks;
  }

  private static boolean hasFigure(String block) {
    String plain = NAMES_OF_RAILS.matcher(CODE.matcher(block).replaceAll("")).replaceAll("");
    return FIGURE.matcher(plain).find();
  }

  @Test
  void eachFigureSaysWhereItIsFrom() {
    List<String> unsigned = new ArrayList<>();
    int signed = 0;
    for (Path page : pages()) {
      for (String block : blocks(SourceTree.text(page))) {
        if (hasFigure(block)) {
          if (SIGN.matcher(block).find()) {
            signed++;
          } else {
            unsigned.add(page.getFileName() + ": " + block);
          }
        }
      }
    }
    assertEquals(List.of(), unsigned);
    assertTrue(signed > 50, signed + " figures are none at all");
  }

  @Test
  void eachSourceIsUsedAndEachSignIsOfASource() {
    Set<String> told = found(SourceTree.text(NOTES.resolve("sources.md")));
    Set<String> used = new TreeSet<>(found(new ExampleWires().page()));
    pages().forEach(page -> used.addAll(found(SourceTree.text(page))));
    assertEquals(told, used);
  }

  private static Set<String> found(String text) {
    return OF_A_SOURCE
        .matcher(text)
        .results()
        .map(sign -> sign.group())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void aFigureWithoutASignWouldBeFound() {
    List<String> blocks =
        blocks("# A title\n\nA tube of\n3 mm.\n\n    9 mm\n- 4 mm (m)\n| a | 2 s |\n");
    assertEquals(List.of("A tube of 3 mm.", "- 4 mm (m)", "| a | 2 s |"), blocks);
    assertTrue(blocks.stream().allMatch(NotesSourcesTest::hasFigure));
    assertEquals(1, blocks.stream().filter(block -> SIGN.matcher(block).find()).count());
    assertTrue(!hasFigure("a supply of 12 V and `tray: 16 L`"));
  }
}
