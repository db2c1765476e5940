package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What the example bench asks of its tanks a day, by hand. A1 holds 271.754 mL that it can take, A2
 * 163.569 mL (CupWaterTest). A label interval is 14 days.
 */
class FeedDemandTest {
  /** Toughened: 0.45 of it in 4 days. Struck: 0.30 in 10 days. */
  private static final double A1_ML = 0.45 * 271.754 / 4.0;

  private static final double A2_ML = 0.30 * 163.569 / 10.0;

  private static FeedDemand demand(String yaml, double tankStrength) throws SetupException {
    Bench bench = BenchFile.read("bench.yaml", yaml);
    return FeedDemand.predicted(bench, bench.feeds().get("leafy"), tankStrength);
  }

  /** A1 wants 0.5 (4 / 14) / 0.45 = 0.31746. */
  @ParameterizedTest(name = "a tank at {0}: {1} of a pass are feed")
  @CsvSource({"1.0, 0.31746", "0.5, 0.63492", "0.31, 1.0", "0.2, 1.0"})
  void feedByTheStrengthThatIsMeant(double tank, double part) throws SetupException {
    FeedDemand demand = demand(Story.BENCH, tank);
    assertEquals(A1_ML * part, demand.feedMlPerD(), 0.001);
    assertEquals(A1_ML + A2_ML, demand.waterMlPerD(), 0.001, "both cups drink");
  }

  @Test
  void weakestFeedIsNoneWhereACupMayHaveNone() throws SetupException {
    FeedDemand demand = demand(Story.BENCH, 0.5);
    assertEquals(0.0, demand.leastStrength());
    assertEquals(List.of("A2"), demand.unfed());
  }

  /** A2 circling: 0.40 in 2.5 days, at 1.0 (2.5 / 14) / 0.40 = 0.44643. */
  @Test
  void weakestFeedThatAnyCupWants() throws SetupException {
    FeedDemand demand = demand(Story.BENCH.replace("stage: struck", "stage: circling"), 0.5);
    double a2Ml = 0.40 * 163.569 / 2.5;
    assertEquals(List.of(), demand.unfed());
    assertEquals(0.31746, demand.leastStrength(), 1e-5);
    assertEquals(A1_ML + a2Ml, demand.waterMlPerD(), 0.001);
    assertEquals(A1_ML * 0.63492 + a2Ml * 0.89286, demand.feedMlPerD(), 0.001);
  }

  @Test
  void benchWithoutFedCupsWantsNone() throws SetupException {
    FeedDemand demand = demand(Story.BENCH.replace("stage: toughened", "stage: white"), 0.5);
    assertEquals(0.0, demand.feedMlPerD());
    assertEquals(0.0, demand.leastStrength());
    assertEquals(List.of("A1", "A2"), demand.unfed());
  }
}
