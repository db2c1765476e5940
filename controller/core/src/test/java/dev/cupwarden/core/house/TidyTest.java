package dev.cupwarden.core.house;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Habits of this code base that a machine can hold. */
class TidyTest {
  private static final int LONGEST_METHOD = 60;
  private static final Pattern TABLE_ROW = Pattern.compile("^ \\* ([A-Z][A-Za-z0-9]*) {2,}\\S");
  private static final Pattern DOUBLE_NAME = Pattern.compile("\\bdouble ([a-z][A-Za-z0-9]*)\\b");
  private static final Pattern METHOD_START =
      Pattern.compile(
          "^  (?!  )(?!(record|enum|class|interface|private record|public record)\\b).*\\) *(throws .*)?\\{$");

  /** Spellings of units that are not those of the table. */
  private static final Pattern OTHER_SPELLING =
      Pattern.compile(
          ".*(KPa|ML|Grams|Kilograms|Celsius|Percent|Litres|Liters|Millilitres|Metres|Volts|Hertz)$");

  private static final String UNIT =
      "(?:Mm2|Cm2|M2|M3|Kpa|Kg|Mg|Ml|Mm|Cm|Ms|Min|Umol|Mol|Counts|Pct|Deg|Rad|Hz|G|L|M|W|S|H|D|C|V)";

  /** An ending of units for each other, such as GPerH. */
  private static final Pattern COMPOUND =
      Pattern.compile("(?<!Per)(?<=[a-z0-9])(" + UNIT + "(?:Per" + UNIT + ")+[SHD]?)$");

  @Test
  void topLevelHoldsWhatItShouldAndNothingElse() throws IOException {
    Set<String> allowed =
        Set.of(
            "README.md",
            "DEVELOPERS.md",
            "pom.xml",
            "controller",
            "host",
            "hardware-notes",
            "LICENSE");
    try (Stream<Path> entries = Files.list(SourceTree.ROOT)) {
      List<String> others =
          entries
              .map(path -> path.getFileName().toString())
              .filter(name -> !name.startsWith(".") && !name.equals("target"))
              .filter(name -> !allowed.contains(name))
              .toList();
      assertEquals(List.of(), others);
    }
  }

  /** The science page tells of rules that the program goes by, not of a library. */
  @Test
  void noClassOfTheScienceStandsUnused() {
    List<Path> sources = mainSources();
    Set<String> unused = new TreeSet<>();
    for (Path source : sources) {
      String room = source.getParent().getFileName().toString();
      String name = source.getFileName().toString().replace(".java", "");
      boolean science =
          source.toString().contains("/core/")
              && Set.of("substrate", "climate", "feeding", "watering", "weighing").contains(room);
      Pattern word = Pattern.compile("(?m)^(?! *(\\*|//|import )).*\\b" + name + "\\b");
      boolean used =
          sources.stream()
              .filter(other -> !other.equals(source))
              .anyMatch(other -> word.matcher(SourceTree.text(other)).find());
      if (science && !used && !name.equals("package-info")) {
        unused.add(room + "." + name);
      }
    }
    assertEquals(Set.of(), unused);
  }

  @Test
  void everyPackageSaysWhatLivesThere() {
    List<Path> silent =
        mainSources().stream()
            .map(Path::getParent)
            .distinct()
            .filter(folder -> !Files.exists(folder.resolve("package-info.java")))
            .toList();
    assertEquals(List.of(), silent);
  }

  @Test
  void unitsInNamesAreThoseOfTheOneTable() {
    Set<String> table = suffixes();
    assertTrue(table.contains("Ml") && table.contains("GPerH"), "the table was read: " + table);
    List<String> others = new ArrayList<>();
    for (Path source : mainSources()) {
      Matcher names = DOUBLE_NAME.matcher(SourceTree.text(source));
      while (names.find()) {
        Matcher compound = COMPOUND.matcher(names.group(1));
        if (OTHER_SPELLING.matcher(names.group(1)).matches()
            || (compound.find() && !table.contains(compound.group(1)))) {
          others.add(SourceTree.name(source) + ": " + names.group(1));
        }
      }
    }
    assertEquals(List.of(), others);
  }

  @Test
  void methodsFitOnAScreen() {
    List<String> tooLong = new ArrayList<>();
    for (Path source : mainSources()) {
      List<String> lines = SourceTree.text(source).lines().toList();
      int start = -1;
      for (int i = 0; i < lines.size(); i++) {
        if (METHOD_START.matcher(lines.get(i)).matches()) {
          start = i;
        } else if (start >= 0 && lines.get(i).equals("  }")) {
          if (i - start > LONGEST_METHOD) {
            tooLong.add(SourceTree.name(source) + ":" + (start + 1));
          }
          start = -1;
        }
      }
    }
    assertEquals(List.of(), tooLong);
  }

  @Test
  void nothingIsLeftForLater() {
    Pattern later = Pattern.compile("TODO|FIXME|XXX|@Disabled|Thread\\.sleep|printStackTrace");
    List<String> found =
        allSources().stream()
            .filter(source -> !source.endsWith("TidyTest.java"))
            .filter(source -> later.matcher(SourceTree.text(source)).find())
            .map(SourceTree::name)
            .toList();
    assertEquals(List.of(), found);
  }

  /** A test under another name would be compiled and never run. */
  @Test
  void everyTestHasANameThatTheBuildRuns() {
    Pattern test = Pattern.compile("@(Test|Property|Example|ParameterizedTest|TestFactory)\\b");
    List<String> neverRun =
        allSources().stream()
            .filter(source -> source.toString().contains("/src/test/"))
            .filter(source -> !source.toString().matches(".*(Test|IT)\\.java"))
            .filter(source -> test.matcher(SourceTree.text(source)).find())
            .map(SourceTree::name)
            .toList();
    assertEquals(List.of(), neverRun);
  }

  @Test
  void noClassIsABag() {
    Pattern bag = Pattern.compile(".*(Utils?|Manager|Helper)\\.java");
    assertFalse(allSources().stream().anyMatch(p -> bag.matcher(p.toString()).matches()));
  }

  /** A stranger's search for a class finds one. */
  @Test
  void noTwoClassesHaveOneName() {
    Map<String, List<String>> byName =
        mainSources().stream()
            .filter(source -> !source.endsWith("package-info.java"))
            .collect(
                Collectors.groupingBy(
                    source -> source.getFileName().toString(),
                    TreeMap::new,
                    Collectors.mapping(SourceTree::name, Collectors.toList())));
    assertEquals(List.of(), byName.values().stream().filter(each -> each.size() > 1).toList());
  }

  private static Set<String> suffixes() {
    Path table =
        SourceTree.ROOT.resolve(
            "controller/core/src/main/java/dev/cupwarden/core/units/package-info.java");
    return SourceTree.text(table)
        .lines()
        .map(TABLE_ROW::matcher)
        .filter(Matcher::find)
        .map(row -> row.group(1))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static List<Path> mainSources() {
    return allSources().stream().filter(path -> path.toString().contains("/src/main/")).toList();
  }

  private static List<Path> allSources() {
    return SourceTree.files(".java");
  }
}
