package dev.cupwarden.app.notes;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.house.SourceTree;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.ExpanderPin;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * The parts list's counts: those for twelve cups are the example's, the others by the same rule.
 */
class PartsTest {
  private static final Pattern ROW =
      Pattern.compile("(?m)^\\| ([a-zA-Z 0-9]+) \\| (\\d+) \\| (\\d+) \\| (\\d+) \\|");

  private final Map<String, int[]> listed = new TreeMap<>();

  PartsTest() {
    String page = SourceTree.text(SourceTree.ROOT.resolve("hardware-notes/parts.md"));
    ROW.matcher(page)
        .results()
        .forEach(
            row ->
                listed.put(
                    row.group(1),
                    new int[] {
                      Integer.parseInt(row.group(2)),
                      Integer.parseInt(row.group(3)),
                      Integer.parseInt(row.group(4))
                    }));
  }

  @Test
  void countsForTwelveCupsAreTheExamples() {
    Bench bench = BackRoom.bench();
    BoardWiring board = bench.board().orElseThrow();
    int valves = board.valves().size();
    assertEquals(board.scales().size(), listed.get("load cell")[1]);
    assertEquals(board.scales().size(), listed.get("weight converter")[1]);
    assertEquals(
        board.scales().values().stream()
            .map(scale -> ((BusPlace) scale.place()).behind().orElseThrow().address())
            .distinct()
            .count(),
        listed.get("multiplexer")[1]);
    assertEquals(valves, listed.get("valve")[1]);
    assertEquals(valves + 2, listed.get("MOSFET stage")[1], "two of the pump");
    assertEquals(valves + 1, listed.get("diode")[1]);
    assertEquals(board.more().gauges().size(), listed.get("float switch")[1]);
    assertEquals(
        board.valves().values().stream()
            .filter(valve -> valve.output() instanceof ExpanderPin)
            .count(),
        listed.get("output expander")[1]);
  }

  @Test
  void countsForFewAndManyFollowTheSameRule() {
    int[] cups = {4, 12, 48};
    for (int i = 0; i < cups.length; i++) {
      int valves = cups[i] + 2;
      assertEquals(cups[i], listed.get("load cell")[i]);
      assertEquals(cups[i], listed.get("weight converter")[i]);
      assertEquals((cups[i] + 7) / 8, listed.get("multiplexer")[i]);
      assertEquals(valves, listed.get("valve")[i]);
      assertEquals(valves + 2, listed.get("MOSFET stage")[i]);
      assertEquals(valves + 1, listed.get("diode")[i]);
      assertEquals((Math.max(0, valves - 16) + 7) / 8, listed.get("output expander")[i]);
    }
  }
}
