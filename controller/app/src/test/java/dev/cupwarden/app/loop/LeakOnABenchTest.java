package dev.cupwarden.app.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.core.dosing.LeakWatch.Stage;
import dev.cupwarden.simulator.VirtualTime;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A leak on a bench with drivers, loop and journal, and programs that end in the midst of it. */
class LeakOnABenchTest {
  private static final int LEAK = 26;

  @TempDir Path folder;
  private FaultBench bench;

  @BeforeEach
  void cupsThatAreDueByEight() throws Exception {
    bench = new FaultBench(folder);
  }

  @AfterEach
  void end() throws Exception {
    bench.close();
  }

  private Stage stage() throws Exception {
    return bench.journal().restored().orElseThrow().state().pump().watch().leak().stage();
  }

  /** The program is killed and another starts on what it left: the stage is as it was. */
  private void dieIn(Stage stage) throws Exception {
    assertEquals(stage, stage());
    int before = bench.passes().size();
    bench.die();
    bench.powerOn();
    bench.runFor(Duration.ofMinutes(20));
    assertEquals(stage, stage(), "after the restart");
    if (stage != Stage.SOUND && stage != Stage.RESCUE) {
      assertEquals(before, bench.passes().size(), "off in " + stage);
    }
  }

  /** How often, but for what is only told again. */
  private long told(String state) throws Exception {
    return bench.events().stream()
        .filter(event -> event.data().path("code").asText().equals("leak"))
        .filter(event -> event.data().path("state").asText().equals(state))
        .filter(event -> !event.data().path("again").asBoolean())
        .count();
  }

  private void wet(boolean isWet) {
    bench.world().faults().wet(LEAK, isWet);
  }

  /** Until a pass was given, at most for that long. */
  private JournalExport.Pass nextPass(Duration within) throws Exception {
    int before = bench.passes().size();
    double waterMl = waterMl();
    for (Duration run = Duration.ZERO; run.compareTo(within) < 0; run = run.plusMinutes(1)) {
      bench.runFor(Duration.ofMinutes(1));
      if (waterMl() > waterMl) {
        return bench.passes().get(before);
      }
    }
    throw new AssertionError("no pass within " + within);
  }

  private double waterMl() {
    return bench.waterInMl().values().stream().mapToDouble(Double::doubleValue).sum();
  }

  @Test
  void aLeakOutlivesRestartsInEachOfItsStages() throws Exception {
    bench.runFor(Duration.ofMinutes(30));
    wet(true);
    bench.runFor(Duration.ofHours(3));
    dieIn(Stage.WET);
    wet(false);
    bench.runFor(Duration.ofHours(2));
    dieIn(Stage.DRYING);
    bench.runFor(Duration.ofHours(4));
    dieIn(Stage.RESCUE);
    assertEquals(1, told("raised"));

    JournalExport.Pass rescue = nextPass(Duration.ofDays(20));
    assertEquals("rescue", rescue.why(), rescue::toString);
    // Four minutes after it, for five seconds, and no scan sees it.
    bench.runFor(Duration.ofMinutes(3));
    wet(true);
    bench.world().time().advanceBy(Duration.ofSeconds(5));
    wet(false);
    bench.runFor(Duration.ofMinutes(6));
    dieIn(Stage.PERSON);
    bench.clear(null);
    bench.runFor(Duration.ofMinutes(20));
    dieIn(Stage.SOUND);
    assertEquals(1, told("cleared"));
  }

  @Test
  void aPassThatWaterEndsIsToldWithWhatRan() throws Exception {
    var watch = new VirtualTime.Handle[1];
    watch[0] =
        bench
            .world()
            .time()
            .every(
                Duration.ofMillis(100),
                () -> {
                  if (bench.world().pumpOn()) {
                    wet(true);
                    watch[0].close();
                  }
                });
    JournalExport.Pass cut = nextPass(Duration.ofDays(3));
    assertEquals("failed", cut.outcome(), cut::toString);
    double ranMl =
        bench.events().stream()
            .filter(event -> event.kind().equals("dose") && event.cup().equals(cut.cup()))
            .mapToDouble(event -> event.data().path("plain_ml").asDouble())
            .sum();
    // At 1.5 mL/s, at the next look of each second.
    assertTrue(ranMl > 0.0 && ranMl < 2.0, ranMl + " mL");
    bench.runFor(Duration.ofMinutes(10));
    assertEquals(1, told("raised"));
    assertEquals(Stage.WET, stage());
  }

  @Test
  void aSensorThatCannotBeReadHoldsTheBenchAndIsTold() throws Exception {
    bench.world().faults().loseLine(LEAK, true);
    bench.runFor(Duration.ofHours(6));
    assertEquals(List.of(), bench.passes());
    assertEquals(1, told("raised"));
    dieIn(Stage.UNREAD);
    bench.world().faults().loseLine(LEAK, false);
    bench.runFor(Duration.ofMinutes(20));
    assertEquals(Stage.SOUND, stage());
    assertEquals(1, told("cleared"));
  }
}
