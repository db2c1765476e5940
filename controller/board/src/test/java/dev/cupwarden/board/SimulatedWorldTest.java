package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import dev.cupwarden.core.limits.GrantedPass;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.ValveFault;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** The simulated world as the drivers see it: people, broken valves, empty tanks, repeatability. */
class SimulatedWorldTest {
  private final Bench bench = TestBench.of(3);
  private final List<Context> contexts = new ArrayList<>();

  @AfterEach
  void shutDown() {
    contexts.forEach(Context::shutdown);
  }

  private BenchBoard boardOn(SimulatedBench world) throws BoardException {
    Context pi4j = world.newContext();
    contexts.add(pi4j);
    return BenchBoard.open(pi4j, bench, TestBench.pace(world.time()));
  }

  private static void hours(SimulatedBench world, double hours) {
    world.advanceTo(world.time().now().plusSeconds(Math.round(hours * 3600)));
  }

  @Test
  void theSameSeedGivesTheSameReadingsToTheLastBit() throws BoardException {
    assertEquals(twoDays(41), twoDays(41));
    assertNotEquals(twoDays(41), twoDays(42));
  }

  private List<BoardReadings> twoDays(long seed) throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, seed, TestBench.START);
    BenchBoard board = boardOn(world);
    List<BoardReadings> seen = new ArrayList<>();
    for (int hour = 0; hour < 48; hour++) {
      hours(world, 1);
      seen.add(board.read());
      if (hour == 24) {
        board.give(GrantedPass.of("A1", 20, 10));
      }
    }
    return seen;
  }

  @Test
  void aCupDriesDownAndAPassIsSeenOnItsScale() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard board = boardOn(world);
    double freshG = board.read().massG().get("A1");
    hours(world, 48);
    double driedG = board.read().massG().get("A1");
    assertTrue(driedG < freshG - 5, freshG + " to " + driedG);
    board.give(GrantedPass.of("A1", 30, 0));
    hours(world, 0.1);
    assertEquals(driedG + 30, board.read().massG().get("A1"), 4.0);
  }

  @Test
  void aLiftedCupWeighsNothingAndItsPassIsSpilled() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard board = boardOn(world);
    double massG = board.read().massG().get("A2");
    world.person().lift("A2");
    assertEquals(0, board.read().massG().get("A2"), 1.0);
    board.give(GrantedPass.of("A2", 10, 0));
    assertEquals(10, world.person().spilledMl(), 2.0);
    world.person().putBack("A2");
    assertEquals(massG, board.read().massG().get("A2"), 1.0);
  }

  @Test
  void swappedCupsShowEachOthersWeight() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard board = boardOn(world);
    world.person().water("A1", 25, 0);
    world.person().swap("A1", "A3");
    BoardReadings seen = board.read();
    assertEquals(world.cup("A1").grossG(), seen.massG().get("A3"), 1.0);
    assertEquals(world.cup("A3").grossG(), seen.massG().get("A1"), 1.0);
  }

  @Test
  void aValveThatDoesNotOpenLeavesItsCupAsItWas() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard board = boardOn(world);
    world.faults().breakValve("VA1", ValveFault.STUCK_SHUT);
    double before = board.read().massG().get("A1");
    assertTrue(board.give(GrantedPass.of("A1", 30, 0)) instanceof DoseOutcome.Given);
    assertEquals(before, board.read().massG().get("A1"), 0.5, "the weight is the witness");
  }

  @Test
  void aLeakingValveFillsItsCupWhileThePumpRests() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard board = boardOn(world);
    hours(world, 48);
    double before = board.read().massG().get("A2");
    world.faults().breakValve("VA2", ValveFault.LEAKING);
    hours(world, 0.5);
    assertEquals(before + 10, board.read().massG().get("A2"), 1.5);
  }

  @Test
  void aTankThatRunsEmptyGivesNoMore() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard board = boardOn(world);
    world.fillTo("plain", 10);
    board.give(GrantedPass.of("A1", 30, 0));
    assertEquals(0, world.tankMl().get("plain"), 1e-9);
    world.fillTo("plain", 100_000);
    assertEquals(12_000, world.tankMl().get("plain"), 1e-9);
  }

  @Test
  void aPowerCutInTheMidstOfAPassStopsTheWater() throws BoardException {
    SimulatedBench world = SimulatedBench.of(bench, 3, TestBench.START);
    BenchBoard before = boardOn(world);
    double massG = before.read().massG().get("A1");
    boolean[] cut = new boolean[1];
    world
        .time()
        .every(
            Duration.ofSeconds(4),
            () -> {
              if (!cut[0] && world.pumpOn()) {
                cut[0] = true;
                world.cutPower();
                throw new PowerCut();
              }
            });
    org.junit.jupiter.api.Assertions.assertThrows(
        PowerCut.class, () -> before.give(GrantedPass.of("A1", 30, 0)));
    hours(world, 0.2);
    BenchBoard after = boardOn(world);
    assertEquals(0, world.linesOn());
    assertTrue(after.read().massG().get("A1") < massG + 10);
  }

  /** The program ends here, as far as the world is concerned. */
  private static final class PowerCut extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }
}
