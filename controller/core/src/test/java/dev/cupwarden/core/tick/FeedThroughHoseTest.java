package dev.cupwarden.core.tick;

import static dev.cupwarden.core.tick.DraftBench.AT;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.feeding.Supply;
import dev.cupwarden.core.feeding.TankDraw;
import dev.cupwarden.core.limits.Limits;
import dev.cupwarden.core.watering.Cause;
import dev.cupwarden.core.watering.Refill;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * How much of a pass of 30 mL to A1 comes from the feed tank at half strength, through a hose of 12
 * mL, by hand. Of f mL of feed after plain water 12 - 36 / f stay in the hose, so 0.5 (f - 12 + 36
 * / f) mL of label strength leave; more than is meant never does.
 */
class FeedThroughHoseTest {
  private final DraftBench bench = new DraftBench("hose: 12 mL");
  private final BenchDraft draft = bench.draft();

  FeedThroughHoseTest() {
    CupDraft cup = DraftBench.holds(draft, "A1", 0.5);
    cup.plant = cup.plant.ofStageSince(AT);
  }

  private TankDraw draw(double meant, Supply supply) {
    CupDraft cup = draft.cups.get("A1");
    cup.wanted = Refill.byHand(Cause.DUE, AT, 90.0, Double.NaN, Set.of(), null);
    Wish wish =
        new Wish(cup, cup.wanted, new Limits.Allowance(30.0, 0.5, List.of(), List.of(), null));
    return FeedThroughHose.of(draft, bench.facts(draft), supply)
        .draw(wish, 30.0, meant, 0.5, List.of());
  }

  private TankDraw draw(double meant) {
    return draw(meant, draft.supply());
  }

  /**
   * All cups may be fed. Meant 0.25: f - 12 + 36 / f is at most 15 at 25.5 mL (14.912; at 25.6 it
   * is 15.006), and 7.456 mL leave.
   */
  @Test
  void asMuchFeedGoesInAsBringsThePassToItsStrength() {
    draft.cups.remove("A2");
    TankDraw draw = draw(0.25);
    assertEquals(25.5, draw.feedMl(), 1e-9);
    assertEquals(4.5, draw.plainMl(), 1e-9);
    assertEquals(0.5 * (25.5 - 12.0 + 36.0 / 25.5) / 30.0, draw.strength(), 1e-9);
  }

  /**
   * What it is still owed is made up for: with 1 mL at most 17 at 27.70 mL. After 7.5 mL too much
   * half a hose goes in, of which nothing leaves yet.
   */
  @ParameterizedTest(name = "{0} mL owed: {1} mL of feed")
  @CsvSource({"0, 25.5", "1, 27.7", "3, 30", "-7.5, 6"})
  void whatIsOwedIsMadeUpFor(double owedMl, double feedMl) {
    draft.cups.remove("A2");
    draft.hose.owedMl.put("A1", owedMl);
    assertEquals(feedMl, draw(0.25).feedMl(), 1e-9);
  }

  @Test
  void noFeedGoesInWhileTheHoseIsToBeClearedOrNoneIsMeant() {
    draft.cups.remove("A2");
    assertEquals(new TankDraw(30.0, 0.0, 0.0), draw(0.0));
    draft.hose.closing = true;
    assertEquals(new TankDraw(30.0, 0.0, 0.0), draw(0.25));
    draft.hose.content = Hose.full(12.0, 0.5, "leafy");
    TankDraw old = draw(0.25);
    assertEquals(0.0, old.feedMl());
    assertEquals(0.5 * 10.8 / 30.0, old.strength(), 1e-9, "what stands in it leaves");
  }

  /** Without plain water feed goes as it is, where that is weak enough. */
  @ParameterizedTest(name = "tank at {0}: {1} mL of feed")
  @CsvSource({"0.5, 30", "0.51, 0"})
  void feedAloneIsGivenWhereItIsWeakEnough(double strength, double feedMl) {
    Supply alone = new Supply(null, 0.0, "feed", "leafy", 3_000.0, strength);
    assertEquals(feedMl, draw(0.25, alone).feedMl());
  }

  /**
   * A2 may not be fed: 0.8 of the room that is left must clear the hose for it. A1 at 0.5 lacks
   * 122.3 mL, 92.3 after this pass; at 0.17, 32.6 and 2.6, and then no feed goes in.
   */
  @Test
  void noMoreGoesInThanCanBePushedOutAgain() {
    DraftBench.holds(draft, "A2", 0.2);
    double roomy = draw(0.25).feedMl();
    assertTrue(roomy > 0.0);
    DraftBench.holds(draft, "A1", 0.17);
    assertEquals(0.0, draw(0.25).feedMl());
  }
}
