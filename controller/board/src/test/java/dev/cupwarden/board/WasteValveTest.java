package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.HoseRules;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class WasteValveTest {
  @Test
  void aPassToWasteOpensTheValveOfThatName() throws Exception {
    Bench plain = TestBench.of(2);
    BoardWiring board = plain.board().orElseThrow();
    Map<String, BoardWiring.Valve> valves = new TreeMap<>(board.valves());
    valves.put("waste", new BoardWiring.Valve(27, Optional.empty()));
    BoardWiring wired =
        new BoardWiring(board.i2cBus(), board.scales(), board.air(), board.pump(), valves);
    Bench bench =
        new Bench(
            plain.name(),
            plain.place(),
            plain.watering(),
            plain.tick(),
            plain.feeding(),
            plain.rooting(),
            plain.climate(),
            plain.mixes(),
            plain.vessels(),
            plain.feeds(),
            plain.water(),
            plain.tanks(),
            plain.cups(),
            Optional.of(wired),
            plain.trayMl(),
            new HoseRules(12.0, true, Optional.of("waste")));
    Plumbing plumbing = new Plumbing(bench, wired);
    assertEquals(Optional.of("waste"), plumbing.valveOf("waste"));
    assertEquals(Optional.of("VA1"), plumbing.valveOf("A1"));
    assertEquals(Optional.empty(), new Plumbing(plain, board).valveOf("waste"));
  }
}
