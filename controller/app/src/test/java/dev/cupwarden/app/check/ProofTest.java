package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.clock.AcceleratedTime;
import dev.cupwarden.board.BenchBoard;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.ValveFault;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The example bench, simulated, proved by somebody who does what is asked, or does not. */
class ProofTest {
  private static final Instant START = Instant.parse("2027-01-10T10:00:00Z");
  private static final int LEAK = 5;
  private static final Map<String, Integer> FLOATS = Map.of("plain", 6, "feed", 4);

  private final Bench bench = BackRoom.bench();
  private final List<String> asked = new ArrayList<>();
  private boolean answers = true;
  private boolean acts = true;
  private SimulatedBench world;
  private Context context;
  private AcceleratedTime time;
  private BenchBoard board;
  @TempDir Path folder;

  @BeforeEach
  void open() throws Exception {
    world = SimulatedBench.of(bench, 3, START.minus(Duration.ofDays(3)));
    world.advanceTo(START);
    context = world.newContext();
    time = new AcceleratedTime(world.time(), AcceleratedTime.UNBOUNDED);
    board = BenchBoard.open(context, bench, time, world::oneWire);
  }

  @AfterEach
  void close() {
    board.close();
    context.shutdown();
  }

  /** Does as told, where {@code acts}; answers each question alike. */
  private final class Helpful implements Proof.Person {
    @Override
    public void please(String wish) {
      asked.add(wish);
      if (!acts) {
        return;
      }
      if (wish.contains("leak sensor")) {
        world.faults().wet(LEAK, wish.startsWith("Wet"));
      }
      FLOATS.forEach(
          (tank, gpio) -> {
            if (wish.contains("float of the tank " + tank)) {
              world.fillTo(tank, 300); // Below both floats, and enough for the proof.
              world.faults().wet(gpio, wish.startsWith("Lift"));
            }
          });
    }

    @Override
    public boolean sees(String question) {
      asked.add(question);
      return answers;
    }
  }

  private List<String> failed() throws Exception {
    List<Finding> all = new Proof(bench, board, time, new Helpful()).all();
    assertEquals(0, world.linesOn(), "nothing is on afterwards");
    return all.stream()
        .filter(step -> step.level() == Finding.Level.FAIL)
        .map(Finding::sentence)
        .toList();
  }

  @Test
  void aSoundBenchIsProvedAndGetsAFewMl() throws Exception {
    assertEquals(List.of(), failed());
    assertEquals(12 * Proof.PASS_ML, 300 - world.tankMl().get("plain"), 8);
    assertTrue(asked.get(0).startsWith("Watch the lamp"), asked::toString);
  }

  @Test
  void tubesThatAreExchangedAreNamed() throws Exception {
    world.faults().exchangeTubes("v1", "v2");
    List<String> failed = failed();
    assertEquals(2, failed.size(), failed::toString);
    assertTrue(failed.get(0).startsWith("Water for cup A1 came to cup A2"), failed::toString);
  }

  @Test
  void aValveThatDoesNotOpenIsNamed() throws Exception {
    world.faults().breakValve("v5", ValveFault.STUCK_SHUT);
    List<String> failed = failed();
    assertEquals(1, failed.size(), failed::toString);
    assertTrue(failed.get(0).startsWith("Of 5 mL for cup B1 its scale shows"), failed::toString);
  }

  @Test
  void aWireThatIsBrokenIsNamed() throws Exception {
    world.faults().cutWire(LEAK, true);
    assertEquals(
        List.of("The program does not see the leak sensor: measure its line, and its wire."),
        failed());
  }

  @Test
  void withoutAPersonNothingIsProvedAndNothingPumped() throws Exception {
    answers = false;
    acts = false;
    double before = world.tankMl().get("plain");
    List<String> failed = failed();
    assertEquals(before, world.tankMl().get("plain"), 0.0);
    assertTrue(failed.get(0).startsWith("The pump-run timer did not show"), failed::toString);
    assertEquals("The valves were not tried.", failed.get(failed.size() - 1));
  }

  @Test
  void theRecordIsAskedForAnewAfter200DaysAndWhenTheWiringChanges() throws Exception {
    BoardWiring wiring = bench.board().orElseThrow();
    ProofRecord record = new ProofRecord(folder);
    assertTrue(record.asks(wiring, START).orElseThrow().startsWith("It was never proved"));
    record.write(wiring, START);
    assertTrue(record.asks(wiring, START.plus(Duration.ofDays(199))).isEmpty());
    assertEquals(
        "That the parts act was last proved 200 days ago: run \"check --prove\", with somebody who"
            + " stands by.",
        record.asks(wiring, START.plus(Duration.ofDays(200))).orElseThrow());
    assertTrue(record.asks(wiring, START.minus(Duration.ofDays(2))).isPresent(), "not yet");
    String moved = BackRoom.text().replace("v5: {gpio: 18}", "v5: {gpio: 14}");
    assertTrue(asksOf(record, moved).startsWith("The wiring has changed"));
    String calibrated = BackRoom.text().replace("zero: 84213", "zero: 84300");
    assertEquals("", asksOf(record, calibrated), "a calibration is no wiring");
    Files.writeString(folder.resolve("proof.json"), "{\"at\": \"20");
    assertFalse(record.asks(wiring, START).isEmpty());
  }

  private static String asksOf(ProofRecord record, String text) throws Exception {
    BoardWiring wiring = BenchFile.read("bench.yaml", text).board().orElseThrow();
    return record.asks(wiring, START.plus(Duration.ofDays(1))).orElse("");
  }
}
