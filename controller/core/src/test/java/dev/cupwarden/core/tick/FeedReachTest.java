package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.SetupException;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * How strong the water of A1 (toughened) can be through 12 mL of hose that it shares with A2
 * (struck), by hand. A1's refill is 0.45 x 271.754 = 122.289 mL in passes of 30 mL, A2's pass a
 * tenth of 191.8 mL. A2 may get 5 mg/L N, a fifth of which is kept for scatter: at 306.4 mg/L N of
 * the label 0.0136 of it, 0.261 mL at label strength.
 *
 * <p>Of feed that began to go in b mL ago and ended a mL ago, 36 / a - 36 / b mL are in the hose,
 * where a is 6 mL or more (HoseTest). Three passes of feed at 0.5, and then 32.289 mL of plain
 * water, leave 0.188 mL to A2's pass; 3 mL more, of which 2.289 mL follow, would leave 1.4 mL.
 */
class FeedReachTest {
  private static List<FeedReach> reach(String yaml) throws SetupException {
    return FeedReach.of(BenchFile.read("bench.yaml", yaml));
  }

  private static String atHose() {
    return "hose: 12 mL\n" + Story.BENCH;
  }

  /** 90 mL at 0.5, less 0.410 mL that stay in the hose: 44.590 of 122.289 mL. */
  @Test
  void threePassesOfFeedAreAsManyAsTheHoseCanBeClearedOf() throws SetupException {
    List<FeedReach> reach = reach(atHose());
    assertEquals(1, reach.size(), "A2 is not fed");
    FeedReach a1 = reach.get(0);
    assertEquals("A1", a1.cup());
    assertEquals(122.289, a1.refillMl(), 0.001);
    // 0.5 (4 / 14) / 0.45.
    assertEquals(0.31746, a1.meant(), 1e-5);
    assertEquals(44.590 / 122.289, a1.reached(), 1e-4);
    assertTrue(a1.enough());
  }

  @Test
  void weakerTankReachesHalfAsMuch() throws SetupException {
    FeedReach a1 = reach(atHose().replace("strength: 0.5", "strength: 0.25")).get(0);
    assertEquals(22.295 / 122.289, a1.reached(), 1e-4);
    assertFalse(a1.enough());
  }

  @Test
  void whereAWasteValveClearsItOrAllAreFedTheTankIsTheBound() throws SetupException {
    assertEquals(0.5, reach("drain: waste\n" + atHose()).get(0).reached());
    List<FeedReach> both = reach(atHose().replace("stage: struck", "stage: circling"));
    assertEquals(List.of(0.5, 0.5), both.stream().map(FeedReach::reached).toList());
    assertEquals(List.of("A1", "A2"), both.stream().map(FeedReach::cup).toList());
  }

  @Test
  void benchWithoutFeedReachesNone() throws SetupException {
    String plain = atHose().replaceAll(" {2}feed: {2}\\{size[^\\n]*\\n", "");
    assertEquals(List.of(), reach(plain));
  }

  @Test
  void tenthLessThanMeantIsEnough() {
    assertTrue(new FeedReach("A1", 0.5, 100.0, 0.45).enough());
    assertFalse(new FeedReach("A1", 0.5, 100.0, 0.449).enough());
  }
}
