package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.watering.CupLines;
import org.junit.jupiter.api.Test;

/** A plant moves lines only where its mix still has air. */
class CupFrameTest {
  private static final String BENCH =
      """
      bench: sill
      mixes:
        mix:
          retention: {saturated: 0.90, residual: 0.18, alpha: 0.12, n: 1.80}
          unavailable: 0.18
          least_air: LEAST
          dry_density: 0.11
      vessels:
        tall: {top: 92 mm, base: 60 mm, depth: 112 mm, empty: 13 g}
      plants: {willow: {lines: -0.1}}
      cups:
        A1: {vessel: tall, mix: mix, plant: willow, stage: struck, cutting: 10 g}
      """;

  private static Bench bench(String leastAir) throws SetupException {
    return BenchFile.read("sill.yaml", BENCH.replace("LEAST", leastAir));
  }

  @Test
  void inAMixWithAirTheWillowIsWateredSooner() throws SetupException {
    Bench bench = bench("0.10");
    Cup cup = bench.cups().get("A1");
    assertEquals(new StageLines(0.5, 0.2, 0.75), CupFrame.stageLines(bench, cup));
    assertEquals(0.5, CupFrame.of(bench, cup).lines().due());
    assertEquals("willow", CupFrame.of(bench, cup).plant().orElseThrow().name());
  }

  /**
   * From capacity on water stands in it, and watering ends before; half of due where that is less.
   */
  @Test
  void withoutHolesItIsTooWetFromCapacityOn() throws SetupException {
    Bench bench = BenchFile.read("sill.yaml", withoutHoles(""));
    CupFrame cup = CupFrame.of(bench, bench.cups().get("A1").withStage(RootStage.CIRCLING));
    assertEquals(new CupLines(0.0, 0.15, 0.4, 0.7), cup.lines());
    Bench moist =
        BenchFile.read("sill.yaml", withoutHoles("lines: {due: 0.2, refill: 0, dry: 0.7},"));
    assertEquals(
        new CupLines(0.0, 0.1, 0.2, 0.7), CupFrame.of(moist, moist.cups().get("A1")).lines());
  }

  private static String withoutHoles(String lines) {
    return BENCH
        .replace("LEAST", "0.10")
        .replace("empty: 13 g", "empty: 13 g, holes: none")
        .replace("cutting: 10 g", lines + " cutting: 10 g");
  }

  /** Lines that stood before must stand with a plant that roots moister, in whatever mix. */
  @Test
  void whereTheMixLacksAirThePlantMovesNothing() throws SetupException {
    for (String leastAir : new String[] {"0.30", "0.35", "0.40", "0.45"}) {
      Bench bench = bench(leastAir);
      Cup cup = bench.cups().get("A1").withStage(RootStage.WHITE);
      CupFrame frame;
      try {
        frame = CupFrame.of(bench, cup);
      } catch (IllegalArgumentException unfit) {
        assertTrue(unfit.getMessage().contains("due 0.500"), unfit.getMessage());
        continue;
      }
      double wet = frame.water().wetLineDepletion();
      assertEquals(wet <= 0.3 ? 0.4 : 0.5, frame.lines().due(), "wet " + wet);
    }
  }
}
