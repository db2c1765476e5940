package dev.cupwarden.app.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.core.house.SourceTree;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The example's wires, as page and drawings show them, against its bench file and the bus map. */
class ExampleWiresTest {
  private static final Path NOTES = SourceTree.ROOT.resolve("hardware-notes");
  private static final Path PAGE = NOTES.resolve("wires.md");
  private static final Path DRAWING = NOTES.resolve("wires.svg");
  private static final Pattern GPIO_ROW =
      Pattern.compile("(?m)^\\| (\\d+) \\| (\\d+) \\| (.+?) \\|");
  private static final Pattern MAPPED = Pattern.compile("(?m)^gpio (\\d+) ");
  private static final Pattern ADDRESS = Pattern.compile("0x[0-9A-Fa-f]{2}");

  private final ExampleWires wires = new ExampleWires();

  @Test
  void pageAndDrawingAreTheBenchFiles() throws Exception {
    if (Boolean.getBoolean("wires.write")) {
      Files.writeString(PAGE, wires.page());
      Files.writeString(DRAWING, wires.drawing());
    }
    assertEquals(wires.page(), Files.readString(PAGE));
    assertEquals(wires.drawing(), Files.readString(DRAWING));
  }

  /** One-wire is the kernel's: the map knows the chip and not the line. */
  @Test
  void thePageHasEachLineOfTheBusMapAndNoOther() throws Exception {
    String map = BenchBoard.busMap(BackRoom.bench().board().orElseThrow());
    TreeSet<Integer> mapped =
        MAPPED
            .matcher(map)
            .results()
            .map(line -> Integer.parseInt(line.group(1)))
            .collect(Collectors.toCollection(TreeSet::new));
    TreeMap<Integer, String> listed = new TreeMap<>();
    for (MatchResult row : GPIO_ROW.matcher(Files.readString(PAGE)).results().toList()) {
      int gpio = Integer.parseInt(row.group(2));
      assertEquals(HeaderPins.OF_GPIO.get(gpio), Integer.parseInt(row.group(1)), row.group());
      listed.put(gpio, row.group(3));
    }
    assertEquals(wires.lines(), listed);
    assertTrue(listed.keySet().containsAll(mapped), mapped + " in " + listed);
    assertEquals(
        List.of("root thermometer"),
        listed.entrySet().stream()
            .filter(line -> !mapped.contains(line.getKey()))
            .map(Map.Entry::getValue)
            .toList());
  }

  @Test
  void everyAddressOfTheBusMapIsOnPageAndDrawingsAndNoOther() throws Exception {
    String map = BenchBoard.busMap(BackRoom.bench().board().orElseThrow());
    assertEquals(addresses(map), wires.addresses());
    for (Path shown : List.of(PAGE, DRAWING)) {
      assertEquals(wires.addresses(), addresses(Files.readString(shown)), shown.toString());
    }
    assertEquals(
        wires.addresses(),
        addresses(Files.readString(NOTES.resolve("signals.svg"))),
        "signals.svg");
  }

  private static Set<String> addresses(String text) {
    return ADDRESS
        .matcher(text)
        .results()
        .map(found -> "0x" + found.group().substring(2).toUpperCase(Locale.ROOT))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void noPinHasTwoMeanings() {
    Set<Integer> taken = new HashSet<>(HeaderPins.OF_GPIO.values());
    assertEquals(HeaderPins.OF_GPIO.size(), taken.size());
    for (Set<Integer> others :
        List.of(HeaderPins.GROUND, HeaderPins.VOLTS_3V3, HeaderPins.VOLTS_5)) {
      others.forEach(pin -> assertTrue(taken.add(pin), "pin " + pin));
    }
    assertFalse(taken.contains(27), "27 and 28 are the board's own");
    assertEquals(HeaderPins.PINS - 2, taken.size());
  }
}
