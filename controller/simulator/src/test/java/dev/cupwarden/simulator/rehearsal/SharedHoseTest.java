package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.faults.FaultLevel;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Feed and plain water through one hose, by the simulator's own hose. */
class SharedHoseTest {
  private static final Instant START = Instant.parse("2026-11-15T00:00:00Z");
  private static final int DAYS = 40;
  private final Map<String, HoseBench> benches = new HashMap<>();

  /** Vessels that hold some 110, 190 and 320 mL; toughened, struck and white roots of each. */
  static String bench(String hose, int cups) {
    StringBuilder yaml =
        new StringBuilder(
            """
            bench: hose
            watering: {window: {from: "08:00", to: "18:00"}}
            mixes:
              coir-perlite:
                retention: {saturated: 0.82, residual: 0.12, alpha: 0.22, n: 1.55}
                unavailable: 0.10
                least_air: 0.10
                dry_density: 0.10
            vessels:
              small: {top: 62 mm, base: 45 mm, depth: 70 mm, empty: 6 g}
              short: {top: 78 mm, base: 54 mm, depth: 82 mm, empty: 9 g}
              tall: {top: 96 mm, base: 62 mm, depth: 102 mm, empty: 13 g}
            feeds:
              leafy:
                analysis: {N: 20, P2O5: 10, K2O: 20}
                label: {amount: 1 tsp, per: 1 US gal, every: 14 d}
                spoon: 5.8 g
                ec: 1.25
            tanks:
              plain: {size: 12 L}
              feed: {size: 4 L, feed: leafy, strength: 0.5}
            %s
            cups:
            """
                .formatted(hose));
    String[] vessels = {"small", "short", "tall"};
    String[] stages = {"struck", "toughened", "white", "toughened"};
    for (int i = 0; i < cups; i++) {
      yaml.append(
          "  C%02d: {vessel: %s, mix: coir-perlite, plant: vine, stage: %s, cutting: 10 g}%n"
              .formatted(i, vessels[i % 3], stages[i / 3 % 4]));
    }
    return yaml.toString();
  }

  private static HoseBench run(String hose, long seed) throws SetupException {
    return new HoseBench(bench(hose, 24), seed).days(START, DAYS);
  }

  /**
   * By the same cups, the same water and no hose: what each kind of cup was meant to get. With
   * {@code -Dhose.seeds=N} more of them.
   */
  @Test
  void feedReachesWhomItIsMeantForAndNobodyElse() throws SetupException {
    for (long seed = 1; seed <= Integer.getInteger("hose.seeds", 6); seed++) {
      HoseBench meant = run("hose: 0 mL", seed);
      assertEquals(0, meant.labelMl(false));
      for (String hose : List.of("hose: 7 mL", "hose: 12 mL")) {
        HoseBench bench = run(hose, seed);
        String where = hose + ", seed " + seed;
        assertEquals(List.of(), bench.tooMuch, where);
        assertEquals(List.of(), bench.afterWaiting, where);
        double part = bench.labelMl(false) / (bench.labelMl(false) + bench.labelMl(true));
        assertTrue(part <= 0.01, where + ": " + part + " of all N to cups that may have none");
        assertTrue(part > 0, where + ": the hose was there");
        for (String vessel : List.of("small", "short", "tall")) {
          double ratio = bench.strength(vessel) / meant.strength(vessel);
          assertEquals(1.0, ratio, 0.1, where + ", " + vessel);
          assertEquals(1.0, bench.partOfMeant(vessel), 0.1, where + ", " + vessel);
        }
        assertEquals(0, bench.dryH(), where + ": hours past the dry line");
        assertTrue(bench.longestWaitMin <= 120, where + ": waited " + bench.longestWaitMin);
      }
    }
  }

  /**
   * Circling cups take the tank's own strength, and no pass may go beyond it: what plain water in
   * between takes away cannot be made up for. Single seeds are up to an eighth off.
   */
  @Test
  void circlingCupsGetWhatIsMeantForThemWithinATenthOnTheWhole() throws SetupException {
    int seeds = Integer.getInteger("hose.seeds", 4);
    for (String hose : List.of("hose: 7 mL", "hose: 12 mL", "hose: 12 mL\ndrain: waste")) {
      for (String vessel : List.of("small", "short", "tall")) {
        double sum = 0;
        for (long seed = 1; seed <= seeds; seed++) {
          sum +=
              circling(hose, seed).strength(vessel) / circling("hose: 0 mL", seed).strength(vessel);
        }
        System.out.printf("%s, %s: circling %.3f of meant%n", hose, vessel, sum / seeds);
        assertEquals(1.0, sum / seeds, 0.1, hose + ", " + vessel);
      }
    }
  }

  private HoseBench circling(String hose, long seed) throws SetupException {
    String yaml = bench(hose, 24).replace("stage: toughened", "stage: circling");
    HoseBench known = benches.get(hose + seed);
    if (known == null) {
      known = new HoseBench(yaml, seed).days(START, DAYS);
      benches.put(hose + seed, known);
      assertEquals(List.of(), known.tooMuch, hose + ", seed " + seed);
      assertTrue(known.afterWaiting.size() <= 1, known.afterWaiting.toString());
      assertEquals(0, known.dryH(), hose + ", seed " + seed);
    }
    return known;
  }

  /**
   * Feed that is too strong for every small pass once stood in the hose until two hours were over.
   */
  @Test
  void feedStrongerThanTheCeilingNeverHoldsUpAllCups() throws SetupException {
    String strong = bench("hose: 12 mL", 24).replace("strength: 0.5}", "strength: 1.0}");
    assertEquals(List.of(), new HoseBench(strong, 4).days(START, DAYS).tooMuch);
  }

  /** What stands in the hose after so many mL ordered is more than reckoned: a tenth too little. */
  @Test
  void aSlowPumpBringsNoFeedToWhomMayHaveNone() throws SetupException {
    String strong = bench("hose: 7 mL", 24).replace("strength: 0.5}", "strength: 1.0}");
    for (long seed = 3; seed <= 4; seed++) {
      HoseBench bench = new HoseBench(strong, seed, 0.9).days(START, DAYS);
      assertEquals(List.of(), bench.tooMuch, "seed " + seed);
    }
  }

  @Test
  void aWasteValveDoesItWithoutWaiting() throws SetupException {
    HoseBench bench = run("hose: 12 mL\ndrain: waste", 1);
    assertEquals(List.of(), bench.tooMuch);
    assertTrue(bench.wasteMl > 0);
    assertEquals(0, bench.dryH());
  }

  /** What the controller reckons at the drip end, beside what slides through the rings. */
  @Test
  void theControllersHoseAndTheSimulatorsAgree() throws SetupException {
    HoseBench bench = run("hose: 12 mL", 2);
    bench.cups.forEach(
        (name, got) -> assertEquals(got.toldLabelMl, got.labelMl, 0.1 * got.labelMl + 0.1, name));
  }

  @Test
  void aRehearsalCountsWhatReachedCupsThatTakeNoFeed() throws SetupException {
    Figures none = rehearsed("hose: 0 mL");
    Figures shared = rehearsed("hose: 12 mL");
    assertEquals(0, none.unfedNMg());
    assertTrue(shared.unfedNMg() > 0 && shared.nMg() > 0, shared.toString());
    assertTrue(shared.unfedNMg() <= 0.01 * shared.nMg(), shared.toString());
    assertEquals(0, shared.violations());
  }

  private static Figures rehearsed(String hose) throws SetupException {
    Bench bench = BenchFile.read("bench.yaml", bench(hose, 12));
    return new Rehearsal(bench, 20, FaultLevel.NONE)
        .run(PolicyKind.CUPWARDEN, 3, day -> {})
        .figures();
  }
}
