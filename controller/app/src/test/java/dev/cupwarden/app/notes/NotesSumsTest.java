package dev.cupwarden.app.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.house.SourceTree;
import dev.cupwarden.core.setup.Bench;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The arithmetic of the hardware notes, each sum computed anew. */
class NotesSumsTest {
  private static final Pattern SUM = Pattern.compile("`([^`\\n]*\\d[^`\\n]* = [^`\\n]*)`");
  private static final List<String> WITH_SUMS =
      List.of("wiring.md", "circuits.md", "water.md", "cups.md", "parts.md");

  @Test
  void everySumOfTheNotesHolds() {
    List<String> wrong = new ArrayList<>();
    Map<String, Integer> found = new TreeMap<>();
    for (Path page : SourceTree.files(".md")) {
      if (!page.getParent().endsWith("hardware-notes")) {
        continue;
      }
      SUM.matcher(SourceTree.text(page))
          .results()
          .forEach(
              sum -> {
                found.merge(page.getFileName().toString(), 1, Integer::sum);
                Sum.wrong(sum.group(1))
                    .ifPresent(why -> wrong.add(page.getFileName() + ": " + why));
              });
    }
    assertEquals(List.of(), wrong);
    assertTrue(found.keySet().containsAll(WITH_SUMS), found::toString);
  }

  /** Where a sum is of the example, its values are the example's. */
  @Test
  void sumsOfTheExampleUseItsValues() {
    Bench bench = BackRoom.bench();
    String water = SourceTree.text(SourceTree.ROOT.resolve("hardware-notes/water.md"));
    assertTrue(water.contains(text("* 1 m = %.1f mL`", bench.hose().volumeMl())));
    assertTrue(water.contains(text("= %.0f L`", bench.tanksMl() / 1000)));
    double mlPerS = bench.board().orElseThrow().pump().mlPerS();
    assertTrue(water.contains(text("1.9 s * %.1f mL/s", mlPerS)));
    assertTrue(water.contains(text("2 s * %.1f mL/s", mlPerS)));
  }

  private static String text(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "3.0 V / 350 Ohm = 8.6 mA | ''",
        "3.0 V / 350 Ohm = 8.7 mA | it is 8.5714",
        "3.0 V / 350 Ohm = 8.57 mA | ''",
        "3.0 V / 350 Ohm = 8.6 V | of another kind",
        "2 m + 3 mm = 2.003 m | ''",
        "2 m + 3 V = 5 m | not of one kind",
        "(5 mL - 1.3 mL) / 1.8 mL/s = 2.1 s | ''",
        "(5 mL - 1.3 mL / 1.8 mL/s = 2.1 s | not of one kind",
        "2 * (3 + 4 = 14 | a bracket stays open",
        "2 furlong * 3 = 6 m | is no unit known",
        "2 * = 4 | a value is missing",
      })
  void aSumThatDoesNotHoldIsFound(String sum, String why) {
    String found = Sum.wrong(sum).orElse("");
    assertTrue(why.isEmpty() ? found.isEmpty() : found.contains(why), found);
  }
}
