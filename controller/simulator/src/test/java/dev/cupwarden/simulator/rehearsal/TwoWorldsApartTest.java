package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
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
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The two worlds share no code and no constants, and the second none with the core's formulas, so
 * that a mistake in one does not hide behind the same mistake in another: by imports, and by a
 * search of all numbers in their sources.
 */
class TwoWorldsApartTest {
  private static final Path SIMULATOR = Path.of("src/main/java/dev/cupwarden/simulator");
  private static final Path CORE = Path.of("../core/src/main/java/dev/cupwarden/core");
  private static final List<String> FIRST = List.of("physics", "weather", "grower");
  private static final Pattern KNOWS = Pattern.compile("dev\\.cupwarden\\.[a-z.]+");
  private static final Pattern NUMBER =
      Pattern.compile("(?<![\\w.])(\\d[\\d_]*(?:\\.\\d+)?(?:e-?\\d+)?)(?![\\w.])");

  /** Numbers that are no choice of anybody's: units, the calendar, the circle. */
  private static final Map<String, String> OF_NATURE =
      Map.of(
          "3600", "seconds of an hour",
          "10000", "cm2 of a m2",
          "365", "days of a year",
          "360", "degrees of a circle",
          "273.15", "kelvins at 0 °C",
          "1000", "a thousand",
          "300", "five minutes of seconds, the tick of a usual bench",
          "86400", "seconds of a day",
          "100", "percent");

  @Test
  void theSecondWorldKnowsTheNeutralRoomTheBenchFileAndFaultLevelsOnly() throws IOException {
    Set<String> known = new TreeSet<>();
    for (Path source : sources(SIMULATOR.resolve("second"))) {
      Matcher found = KNOWS.matcher(Files.readString(source));
      while (found.find()) {
        known.add(found.group().replaceAll("\\.$", ""));
      }
    }
    assertEquals(
        Set.of(
            "dev.cupwarden.core.setup",
            "dev.cupwarden.simulator.faults",
            "dev.cupwarden.simulator.second",
            "dev.cupwarden.simulator.world"),
        known);
  }

  @Test
  void theFirstWorldAndTheNeutralRoomDoNotKnowTheSecond() throws IOException {
    List<String> rooms = new ArrayList<>(FIRST);
    rooms.add("world");
    rooms.add("faults");
    for (String room : rooms) {
      for (Path source : sources(SIMULATOR.resolve(room))) {
        assertTrue(!Files.readString(source).contains("simulator.second"), source.toString());
      }
    }
  }

  @Test
  void theNeutralRoomReckonsNothing() throws IOException {
    for (Path source : sources(SIMULATOR.resolve("world"))) {
      String text = Files.readString(source);
      assertTrue(!text.contains("StrictMath"), source + " reckons");
      assertEquals(Set.of(), numbers(text), source.toString());
    }
  }

  @Test
  void noTypeOfOneWorldBearsTheOthersName() throws IOException {
    Set<String> second = names(SIMULATOR.resolve("second"));
    for (String room : FIRST) {
      Set<String> both = names(SIMULATOR.resolve(room));
      both.retainAll(second);
      both.remove("package-info.java");
      assertEquals(Set.of(), both, room);
    }
  }

  @Test
  void theTwoWorldsShareNoConstants() throws IOException {
    Map<String, String> first = new TreeMap<>();
    for (String room : FIRST) {
      put(sources(SIMULATOR.resolve(room)), first);
    }
    put(List.of(SIMULATOR.resolve("faults/CupScale.java")), first);
    assertEquals(Map.of(), shared(first));
  }

  @Test
  void theSecondWorldSharesNoConstantsWithTheCoresFormulas() throws IOException {
    Map<String, String> core = new TreeMap<>();
    put(sources(CORE), core);
    assertEquals(Map.of(), shared(core));
  }

  /** Numbers of the second world that stand there, too, with both places. */
  private static Map<String, String> shared(Map<String, String> there) throws IOException {
    Map<String, String> second = new TreeMap<>();
    put(sources(SIMULATOR.resolve("second")), second);
    second.keySet().retainAll(there.keySet());
    second.keySet().removeAll(OF_NATURE.keySet());
    second.replaceAll((number, place) -> place + " and " + there.get(number));
    return second;
  }

  private static void put(List<Path> sources, Map<String, String> into) throws IOException {
    for (Path source : sources) {
      for (String number : numbers(Files.readString(source))) {
        into.merge(number, source.getFileName().toString(), (one, other) -> one + ", " + other);
      }
    }
  }

  /**
   * Numbers of three or more digits that count, such as 0.665 or 17.27: two digits are too few to
   * tell a copy from chance. Comments are left out.
   */
  private static Set<String> numbers(String text) {
    String code =
        text.replaceAll("(?s)/\\*.*?\\*/", "")
            .replaceAll("//[^\n]*", "")
            .replaceAll("\"[^\"\n]*\"", "");
    Set<String> found = new TreeSet<>();
    Matcher number = NUMBER.matcher(code);
    while (number.find()) {
      BigDecimal value = new BigDecimal(number.group().replace("_", ""));
      String plain = value.stripTrailingZeros().toPlainString();
      if (value.stripTrailingZeros().precision() >= 3 || OF_NATURE.containsKey(plain)) {
        found.add(plain);
      }
    }
    return found;
  }

  private static Set<String> names(Path room) throws IOException {
    Set<String> names = new TreeSet<>();
    sources(room).forEach(source -> names.add(source.getFileName().toString()));
    return names;
  }

  private static List<Path> sources(Path room) throws IOException {
    try (Stream<Path> all = Files.walk(room)) {
      return all.filter(file -> file.toString().endsWith(".java")).sorted().toList();
    }
  }
}
