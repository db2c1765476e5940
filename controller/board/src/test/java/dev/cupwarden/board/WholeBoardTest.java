package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.GrantedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.chips.ChipFault;
import dev.cupwarden.simulator.chips.SimulatedDs18b20;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A bench with every kind of part there is a driver for, from its file to its readings. */
class WholeBoardTest {
  private static final int LEAK = 26;
  private static final int FLOAT_AT_ML = 500;

  private Bench bench;
  private SimulatedBench world;
  private Context pi4j;
  private BenchBoard board;

  @BeforeEach
  void open() throws Exception {
    try (InputStream in = getClass().getResourceAsStream("every-part.yaml")) {
      bench =
          BenchFile.read("every-part.yaml", new String(in.readAllBytes(), StandardCharsets.UTF_8));
    }
    world = SimulatedBench.of(bench, 11, TestBench.START);
    pi4j = world.newContext();
    board = BenchBoard.open(pi4j, bench, TestBench.pace(world.time()), world::oneWire);
  }

  @AfterEach
  void close() {
    board.close();
    pi4j.shutdown();
  }

  @Test
  void everyPartIsReadThroughItsDriver() {
    BoardReadings seen = board.read();
    assertTrue(seen.faults().isEmpty(), () -> seen.faults().toString());
    assertEquals(world.cup("A1").grossG(), seen.massG().get("A1"), 1.0, "I2C converter");
    assertEquals(world.cup("A2").grossG(), seen.massG().get("A2"), 1.0, "clocked converter");
    double volumeMl = Math.PI * 11.2 / 12 * (9.2 * 9.2 + 9.2 * 6.0 + 6.0 * 6.0);
    assertEquals(world.cup("A3").waterMl() / volumeMl, seen.theta().get("A3"), 0.002, "probe");
    assertEquals(19, seen.rootC().orElseThrow(), 0.1);
    assertEquals(20, seen.airC().orElseThrow(), 0.1);
    assertEquals(12, seen.outdoorC().orElseThrow(), 0.1, "a porch, 8 K colder");
    assertEquals(4000, seen.tankMl().get("feed"), 15, "tank scale");
    assertEquals(FLOAT_AT_ML, seen.tankAtLeastMl().get("plain"));
    assertFalse(seen.leak());
  }

  @Test
  void anExpanderThatFallsSilentIsToldAtTheNextScan() {
    world.faults().breakChip("expander 0x20", ChipFault.SILENT);
    BoardReadings silent = board.read();
    assertEquals(
        "These do not answer and may be open: valve v1, valve v3. The pump is off: look at their"
            + " wires, their expander's supply and the bus.",
        silent.faults().get(BoardReadings.OUTPUTS));
    assertFalse(silent.faults().containsKey(BoardReadings.PUMP));
    world.faults().breakChip("expander 0x20", ChipFault.NONE);
    assertFalse(board.read().faults().containsKey(BoardReadings.OUTPUTS));
  }

  @Test
  void waterOnTheFloorAndAnEmptyTankAreSeen() {
    world.faults().wet(LEAK, true);
    world.fillTo("plain", 400);
    world.fillTo("feed", 1000);
    BoardReadings seen = board.read();
    assertTrue(seen.leak());
    assertEquals(0.0, seen.tankMl().get("plain"));
    assertTrue(seen.tankAtLeastMl().isEmpty());
    assertEquals(1000, seen.tankMl().get("feed"), 15);
  }

  @Test
  void eachPartFailsByItself() {
    world.faults().breakChip("p3", ChipFault.SILENT);
    world.faults().breakRoot(SimulatedDs18b20.Fault.WEAK);
    BoardReadings seen = board.read();
    assertEquals(java.util.Set.of("p3", "root"), seen.faults().keySet());
    assertTrue(seen.theta().isEmpty());
    assertTrue(seen.rootC().isEmpty());
    assertEquals(2, seen.massG().size());
    for (SimulatedDs18b20.Fault fault : SimulatedDs18b20.Fault.values()) {
      world.faults().breakRoot(fault);
      assertEquals(
          fault == SimulatedDs18b20.Fault.NONE, board.read().rootC().isPresent(), fault::toString);
    }
  }

  @Test
  void aPassGoesThroughAnExpandersValveAndALineThatIsOnWhenLow() {
    double before = board.read().massG().get("A1");
    assertInstanceOf(DoseOutcome.Given.class, board.give(GrantedPass.of("A1", 15, 0)));
    assertEquals(0, world.linesOn());
    world.time().advanceBy(Duration.ofMinutes(1));
    assertEquals(before + 15, board.read().massG().get("A1"), 3.0, "over the expander");
    double other = board.read().massG().get("A2");
    assertInstanceOf(DoseOutcome.Given.class, board.give(GrantedPass.of("A2", 15, 0)));
    world.time().advanceBy(Duration.ofMinutes(1));
    assertEquals(other + 15, board.read().massG().get("A2"), 3.0, "by a line that is on when low");
    assertEquals(0, world.linesOn());
  }

  @Test
  void whatThePumpRanBeforeThisStartCountsInItsHour() {
    board.ranBefore(Duration.ofMinutes(10), 2000);
    DoseOutcome outcome = board.give(GrantedPass.of("A1", 15, 0));
    String reason = assertInstanceOf(DoseOutcome.Failed.class, outcome).reason();
    assertTrue(reason.contains("within an hour"), reason);
    assertEquals(0, outcome.plainMl());
  }

  @Test
  void theMapNamesEveryPlaceOnce() throws Exception {
    String map = BenchBoard.busMap(bench.board().orElseThrow());
    for (String part :
        new String[] {
          "scale K1",
          "clock of its hx711",
          "probe p3",
          "w1 28-0316a2795aff",
          "w1 28-0316a2795b00",
          "pin 3",
          "leak",
          "heartbeat",
          "float of tank plain",
          "(low is on)"
        }) {
      assertTrue(map.contains(part), part + " in\n" + map);
    }
    assertEquals(map.lines().count(), map.lines().distinct().count());
  }
}
