package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.mockito.AdditionalAnswers.delegatesTo;
import static org.mockito.ArgumentMatchers.any;
import static org.mockito.Mockito.doThrow;
import static org.mockito.Mockito.mock;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalOutputConfig;
import dev.cupwarden.core.limits.GrantedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.chips.ChipFault;
import java.time.Duration;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** The whole board on a simulated bench: the very drivers, against chips at register level. */
class BenchBoardTest {
  private final Bench bench = TestBench.of(12);
  private final SimulatedBench world = SimulatedBench.of(bench, 7, TestBench.START);
  private final Context pi4j = world.newContext();

  @AfterEach
  void shutDown() {
    pi4j.shutdown();
  }

  private BenchBoard open() throws BoardException {
    return BenchBoard.open(pi4j, bench, TestBench.pace(world.time()));
  }

  @Test
  void everyCupIsWeighedThroughTwoSwitches() throws BoardException {
    BoardReadings seen = open().read();

    assertEquals(bench.cups().keySet(), seen.massG().keySet());
    assertTrue(seen.faults().isEmpty(), () -> seen.faults().toString());
    // Creep, drift and hysteresis of a small cell are well below a gram here.
    seen.massG().forEach((cup, massG) -> assertEquals(world.cup(cup).grossG(), massG, 1.0, cup));
    assertEquals(20.0, seen.airC().orElseThrow(), 0.01);
    assertEquals(50.0, seen.rhPct().orElseThrow(), 0.01);
  }

  @Test
  void aMachineWithoutLinesIsToldInASentence() {
    Context machine = mock(Context.class, delegatesTo(pi4j));
    doThrow(new IllegalStateException("No gpio chip yet initialized!"))
        .when(machine)
        .create(any(DigitalOutputConfig.class));
    BoardException told =
        assertThrows(
            BoardException.class,
            () -> BenchBoard.open(machine, bench, TestBench.pace(world.time())));
    assertEquals(
        "Output 5 (the pump) cannot be opened: No gpio chip yet initialized!", told.getMessage());
  }

  @Test
  void aSecondScanTakesHalfASecondAsAllConvertersRunSideBySide() throws BoardException {
    BenchBoard board = open();
    board.read();
    long before = world.time().nanos();
    board.read();
    Duration scan = Duration.ofNanos(world.time().nanos() - before);
    assertTrue(scan.compareTo(Duration.ofMillis(800)) < 0, scan::toString);
  }

  @Test
  void aPassReachesItsCupAndNoOther() throws BoardException {
    BenchBoard board = open();
    double[] before = grossG();
    DoseOutcome outcome = board.give(GrantedPass.of("A3", 15, 15));

    DoseOutcome.Given given = assertInstanceOf(DoseOutcome.Given.class, outcome);
    assertEquals(15, given.plainMl(), 0.01);
    assertEquals(15, given.feedMl(), 0.01);
    assertEquals(0, world.linesOn());
    // A tenth of the pass for what pump and hose are off, see SimulatedPump.
    assertEquals(30, grossG()[2] - before[2], 3.0);
    for (int i = 0; i < 12; i++) {
      if (i != 2) {
        assertEquals(before[i], grossG()[i], 0.1, TestBench.cupName(i));
      }
    }
    assertEquals(12_000 - 15, world.tankMl().get("plain"), 1.5);
    assertEquals(4_000 - 15, world.tankMl().get("feed"), 1.5);
  }

  private double[] grossG() {
    return bench.cups().keySet().stream()
        .sorted(java.util.Comparator.comparingInt(name -> Integer.parseInt(name.substring(1))))
        .mapToDouble(name -> world.cup(name).grossG())
        .toArray();
  }

  @Test
  void aSilentConverterIsOneFaultAndComesBackWhenPluggedInAgain() throws BoardException {
    BenchBoard board = open();
    world.faults().breakChip("K4", ChipFault.SILENT);
    BoardReadings seen = board.read();
    assertEquals(Set.of("K4"), seen.faults().keySet());
    assertFalse(seen.massG().containsKey("A4"));
    assertEquals(11, seen.massG().size());
    assertTrue(seen.faults().get("K4").contains("0x2a"), seen.faults().get("K4"));

    world.faults().breakChip("K4", ChipFault.NONE);
    assertEquals(12, board.read().massG().size());
  }

  @Test
  void aConverterThatLostItsSupplyIsSetUpAnewWithinTheScan() throws BoardException {
    BenchBoard board = open();
    board.read();
    world.faults().interruptPower("K1");
    BoardReadings seen = board.read();
    assertTrue(seen.faults().isEmpty(), () -> seen.faults().toString());
    assertEquals(world.cup("A1").grossG(), seen.massG().get("A1"), 1.0);
  }

  @Test
  void aLineHeldLowOrHighIsNoWeight() throws BoardException {
    BenchBoard board = open();
    board.read();
    world.faults().breakChip("K1", ChipFault.ZEROES);
    world.faults().breakChip("K2", ChipFault.ONES);
    world.faults().breakChip("K3", ChipFault.STUCK);
    world.faults().breakChip("air", ChipFault.GARBLED);
    BoardReadings seen = board.read();
    assertEquals(Set.of("K1", "K2", "K3", "air"), seen.faults().keySet());
    assertEquals(9, seen.massG().size());
    assertTrue(seen.airC().isEmpty());
    assertTrue(seen.faults().get("air").contains("wrong check"), seen.faults().get("air"));
  }

  @Test
  void aBusHeldByOneChipIsAFaultOfAllAndOfNoneAfterwards() throws BoardException {
    BenchBoard board = open();
    world.faults().breakChip("air", ChipFault.BUS_ERROR);
    BoardReadings seen = board.read();
    assertTrue(seen.massG().isEmpty());
    assertEquals(13, seen.faults().size());
    world.faults().breakChip("air", ChipFault.NONE);
    assertTrue(board.read().faults().isEmpty());
  }

  @Test
  void aDeadSwitchTakesItsOwnCupsOnly() throws BoardException {
    BenchBoard board = open();
    board.read();
    world.faults().breakSwitch(0x70, ChipFault.SILENT);
    BoardReadings seen = board.read();
    assertEquals(Set.of("A9", "A10", "A11", "A12"), seen.massG().keySet());
  }

  @Test
  void anOverloadedCellIsAFault() throws BoardException {
    BenchBoard board = open();
    world.person().lean("A1", 5_000);
    BoardReadings seen = board.read();
    assertTrue(seen.faults().get("K1").contains("upper end (0x7fffff)"), seen.faults().toString());
  }

  @Test
  void outputsAreOffAfterARestartInTheMidstOfAPass() throws BoardException {
    BenchBoard board = open();
    long[] onWhileCut = new long[1];
    world
        .time()
        .every(
            Duration.ofSeconds(3),
            () -> {
              if (world.pumpOn()) {
                onWhileCut[0] = world.linesOn();
                board.allOff();
              }
            });
    DoseOutcome.Failed failed =
        assertInstanceOf(DoseOutcome.Failed.class, board.give(GrantedPass.of("A1", 30, 0)));
    assertEquals(3, onWhileCut[0]);
    assertEquals(0, world.linesOn());
    assertEquals(3 * TestBench.ML_PER_S, failed.plainMl(), 0.5);
    assertEquals(0, failed.feedMl());
  }

  @Test
  void aBenchWithoutWiringIsRefusedWithASentence() {
    Bench bare =
        new Bench(
            bench.name(),
            bench.place(),
            bench.watering(),
            bench.tick(),
            bench.feeding(),
            bench.rooting(),
            bench.climate(),
            bench.mixes(),
            bench.vessels(),
            bench.feeds(),
            bench.waterEcMsPerCm(),
            bench.tanks(),
            bench.cups(),
            java.util.Optional.empty(),
            bench.trayMl());
    BoardException refused =
        assertThrows(
            BoardException.class, () -> BenchBoard.open(pi4j, bare, TestBench.pace(world.time())));
    assertEquals("Bench back-room has no board: its wiring is missing.", refused.getMessage());
  }

  @Test
  void theMapShowsEveryPartWithItsPlace() throws BoardException {
    String map = open().busMap();
    assertTrue(map.contains("i2c 1 0x71 ch 1 > 0x2a nau7802    scale K10"), map);
    assertTrue(map.contains("i2c 1 0x70"), map);
    assertTrue(map.contains("0x44 sht3x"), map);
    assertEquals(2 + 12 + 1 + 1 + 14, map.lines().count());
  }
}
