package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchSafety;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.BoardWiring.Gpio;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The bench that comes with the program, and the table of its lines in the hardware notes. */
class ExampleBenchTest {
  private static final Path WIRING = Path.of("..", "..", "hardware-notes", "wiring.md");
  private static final Pattern ROW = Pattern.compile("(?m)^\\| (\\d+) \\| (.+?) \\|$");
  private static final Pattern ONE_WIRE_PIN = Pattern.compile("w1-gpio,gpiopin=(\\d+)");

  @Test
  void itLacksNothingAndCanBeRun() throws SetupException {
    Bench bench = BackRoom.bench();
    assertEquals(12, bench.cups().size());
    assertEquals(List.of(), new BenchSafety(bench).faults());
    new Tick(bench);
  }

  @Test
  void theNotesListEachOfItsLines() throws IOException {
    SortedMap<Integer, String> written = new TreeMap<>();
    for (MatchResult row : ROW.matcher(Files.readString(WIRING)).results().toList()) {
      written.put(Integer.parseInt(row.group(1)), row.group(2));
    }
    assertEquals(wired(BackRoom.bench().board().get()), written);
  }

  private static SortedMap<Integer, String> wired(BoardWiring board) {
    SortedMap<Integer, String> lines = new TreeMap<>();
    lines.put(board.pump().gpio(), "pump");
    lines.put(board.more().heartbeat().get(), "heartbeat of the pump-run timer");
    lines.put(board.more().leak().get(), "leak sensor");
    board
        .more()
        .gauges()
        .forEach(
            (tank, gauge) -> lines.put(((FloatSwitch) gauge).gpio(), "float of the tank " + tank));
    board
        .valves()
        .forEach((name, valve) -> lines.put(((Gpio) valve.output()).line(), "valve " + name));
    int oneWire =
        ONE_WIRE_PIN
            .matcher(BackRoom.text())
            .results()
            .mapToInt(pin -> Integer.parseInt(pin.group(1)))
            .sum();
    lines.put(oneWire, "root thermometer (one-wire)");
    return lines;
  }
}
