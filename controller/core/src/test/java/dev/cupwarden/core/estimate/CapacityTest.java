package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

class CapacityTest {
  @Test
  void firstPlateauCorrectsTheWaterHeldAndLaterOnesFollowTheGrowth() {
    Capacity first = Capacity.PREDICTED.weighed(Cups.START, 390);
    WeightFrame frame = first.over(Cups.TALL);
    assertEquals(390, frame.capacityG());
    assertEquals(Cups.TALL.dryG(), frame.dryG(), "the mix was judged wrong, nothing grew");
    assertEquals(Cups.TALL.availableMl() - 11.872, frame.availableMl(), 1e-9, "the dry line stays");
    Capacity second = first.weighed(Cups.START.plus(Duration.ofDays(30)), 402);
    assertEquals(12, second.growthG());
    WeightFrame grown = second.over(Cups.TALL);
    assertEquals(Cups.TALL.dryG() + 12, grown.dryG());
    assertEquals(Cups.TALL.saturatedG() + 12, grown.saturatedG());
    assertEquals(
        frame.availableMl(), grown.availableMl(), 1e-9, "the plant grew, the water held did not");
  }

  @Test
  void foundPlateausAreAveragedInByTheirPrecision() {
    Capacity told = Capacity.PREDICTED.weighed(Cups.START, 400);
    Capacity soon = told.found(Cups.START.plus(Duration.ofHours(6)), 410);
    assertTrue(soon.massG() > 400 && soon.massG() < 402, "one odd plateau moves little");
    Capacity late = told.found(Cups.START.plus(Duration.ofDays(40)), 410);
    assertTrue(late.massG() > 406, "after weeks the plant has grown");
  }

  /** After four days the variance is 1 + 4 x 0.5 = 3 g²; a plateau has 9: a quarter of the way. */
  @Test
  void plateauByHand() {
    Capacity told = Capacity.PREDICTED.weighed(Cups.START, 400);
    Capacity later = told.found(Cups.START.plus(Duration.ofDays(4)), 408);
    assertEquals(402, later.massG(), 1e-9);
    assertEquals(2.25, later.varG2(), 1e-9);
    assertEquals(Capacity.Teacher.WEIGHING, later.by());
    Capacity first = Capacity.PREDICTED.found(Cups.START, 408);
    assertEquals(408, first.massG());
    assertEquals(9, first.varG2());
    assertEquals(Capacity.Teacher.PLATEAU, first.by());
  }

  /** Half a gram a day at most, up or down, and never below the first. */
  @Test
  void growthIsBounded() {
    Capacity told = Capacity.PREDICTED.weighed(Cups.START, 400);
    assertEquals(5, told.weighed(Cups.START.plus(Duration.ofDays(10)), 410).growthG());
    Capacity grown = told.weighed(Cups.START.plus(Duration.ofDays(30)), 412);
    assertEquals(12, grown.growthG());
    assertEquals(7, grown.weighed(Cups.START.plus(Duration.ofDays(40)), 380).growthG());
    assertEquals(0, told.weighed(Cups.START.plus(Duration.ofDays(10)), 390).growthG());
  }

  @Test
  void whatIsInDoubtIsForAWeighingAlone() {
    Capacity doubted = Capacity.PREDICTED.weighed(Cups.START, 400).doubted(Cups.START);
    Instant later = Cups.START.plus(Duration.ofDays(1));
    assertTrue(doubted.doubted());
    assertSame(doubted, doubted.found(later, 408));
    assertSame(doubted, doubted.ranThrough(later, 380));
    Capacity weighed = doubted.weighed(later, 405);
    assertFalse(weighed.doubted());
    assertEquals(405, weighed.massG());
  }

  @Test
  void waterThatRanThroughTeachesUnlessAWeighingDid() {
    Capacity full = Capacity.PREDICTED.ranThrough(Cups.START, 390);
    assertEquals(390, full.massG());
    assertEquals(Capacity.Teacher.PLATEAU, full.by());
    assertEquals(385, full.ranThrough(Cups.START, 385).massG());
    Capacity weighed = Capacity.PREDICTED.weighed(Cups.START, 400);
    assertSame(weighed, weighed.ranThrough(Cups.START, 390));
  }

  @Test
  void teacherOfAnOlderJournal() {
    assertEquals(Capacity.Teacher.PREDICTION, new Capacity(0, 0, 0, null, null, null).by());
    assertEquals(Capacity.Teacher.PLATEAU, new Capacity(400, 400, 9, Cups.START, null, null).by());
    assertEquals("weighing", Capacity.Teacher.WEIGHING.word());
  }

  /**
   * Heavier: a tenth, a fifth and a quarter of 271.754 mL, or a tenth of the water foretold.
   * Lighter: a tenth of 271.754 mL once it was learned, else a tenth of 323.313 mL foretold.
   */
  @Test
  void howFarIsFar() {
    double capacityG = Cups.TALL.capacityG();
    Capacity weighed = Capacity.PREDICTED.weighed(Cups.START, capacityG);
    Capacity plateau = Capacity.PREDICTED.found(Cups.START, capacityG);
    assertEquals(27.1754, weighed.farG(Cups.TALL, capacityG + 1), 1e-9);
    assertEquals(27.1754, weighed.farG(Cups.TALL, capacityG - 1), 1e-9);
    assertEquals(54.3508, plateau.farG(Cups.TALL, capacityG + 1), 1e-9);
    assertEquals(27.1754, plateau.farG(Cups.TALL, capacityG - 1), 1e-9);
    assertEquals(67.9385, Capacity.PREDICTED.farG(Cups.TALL, capacityG + 1), 1e-9);
    assertEquals(32.3313, Capacity.PREDICTED.farG(Cups.TALL, capacityG - 1), 1e-9);
    assertEquals(30, Capacity.PREDICTED.farG(new WeightFrame(100, 400, 500, 100), 401), 1e-9);
  }

  /** 401.872 - 0.7 x 271.754 = 211.644 g. */
  @Test
  void mixKeepsThreeTenthsAtLeast() {
    assertEquals(211.6442, Capacity.PREDICTED.leastG(Cups.TALL), 1e-4);
    Capacity grown =
        Capacity.PREDICTED
            .weighed(Cups.START, 400)
            .weighed(Cups.START.plus(Duration.ofDays(30)), 412);
    assertEquals(223.6442, grown.leastG(Cups.TALL), 1e-4, "and what it grew by");
    WeightFrame least = Capacity.PREDICTED.weighed(Cups.START, 200).over(Cups.TALL);
    assertEquals(211.6442, least.capacityG(), 1e-4);
    assertEquals(81.5262, least.availableMl(), 1e-4);
    assertEquals(510, Capacity.PREDICTED.weighed(Cups.START, 510).over(Cups.TALL).saturatedG());
    assertSame(Cups.TALL, Capacity.PREDICTED.over(Cups.TALL));
  }

  @Test
  void predictionGrowsOldAfterFourWeeks() {
    assertTrue(Capacity.PREDICTED.old(Cups.START));
    Capacity told = Capacity.PREDICTED.weighed(Cups.START, 400);
    assertFalse(told.old(Cups.START.plus(Duration.ofDays(28))));
    assertTrue(told.old(Cups.START.plus(Duration.ofDays(28)).plusSeconds(1)));
    assertEquals(2.0, told.ageDays(Cups.START.plus(Duration.ofDays(2))));
  }

  @Test
  void cupWateredToExcessShowsItsCapacityWhenItHasDrained() {
    Cups cup = new Cups();
    double massG = cup.dries(48, 380, 1.3);
    double restsAtG = 396;
    cup.look(5, massG + 45, 45, true);
    for (int looks = 1; looks < 36; looks++) {
      double drainingG = (massG + 45 - restsAtG) * Math.exp(-looks / 3.0);
      cup.look(5, restsAtG + drainingG - 1.3 * looks / 12 + Cups.wobble(looks), 0, true);
      assertEquals("trusted", cup.code());
    }
    assertEquals(1, cup.events(WeightEvent.Drained.class).size());
    assertEquals(restsAtG, cup.state.capacity().massG(), 2);
    assertEquals(1.3, cup.estimate().rateGPerH(), 0.25);
    assertEquals(2, cup.events.size());
  }

  /**
   * Five grams each half hour, then rest: water that a hand wipes off, a slow leak, no drainage.
   */
  @Test
  void fallThatDoesNotSlowIsNoDrainage() {
    Cups cup = new Cups();
    double massG = cup.dries(48, 380, 1.3);
    cup.look(5, massG + 35, 35, true);
    for (int looks = 1; looks < 36; looks++) {
      double fallsG = 5 * Math.min(2, looks / 6.0);
      cup.look(5, massG + 35 - fallsG - 1.3 * looks / 12 + Cups.wobble(looks), 0, true);
    }
    assertFalse(cup.state.capacity().learned());
  }

  @Test
  void refillShortOfDrainingShowsNoPlateau() {
    Cups cup = new Cups();
    double massG = cup.dries(24, 370, 1.3);
    cup.look(5, massG + 20, 20, true);
    cup.dries(36, massG + 19.9, 1.3);
    assertTrue(cup.events(WeightEvent.Drained.class).isEmpty());
    assertFalse(cup.state.capacity().learned());
  }

  /**
   * By hand: dry 100 g, capacity 400 g, available 250 mL, so 300 mL at capacity of which the
   * cutting cannot take 50. Spreads: of the dry parts 5 g, of capacity 15 g, of the rest 5 g.
   */
  @Test
  void depletionIsInDoubtAsFarAsItsLinesAre() {
    WeightFrame predicted = new WeightFrame(100, 400, 500, 250);
    Instant now = Instant.parse("2027-02-14T08:00:00Z");
    Capacity none = Capacity.PREDICTED;
    assertEquals(Math.hypot(15, 5) / 250, none.depletionSd(predicted, 400, 0, now, now), 1e-9);
    assertEquals(Math.hypot(5, 5) / 250, none.depletionSd(predicted, 150, 0, now, now), 1e-9);
    // Half way: 7.5, 2.5 and 5 g, and 3 g of the weight itself.
    double half = Math.sqrt(7.5 * 7.5 + 2.5 * 2.5 + 25 + 9);
    assertEquals(half / 250, none.depletionSd(predicted, 275, 3, null, now), 1e-9);
    // Sixteen days of growth, 0.5 g² each.
    Instant since = now.minus(java.time.Duration.ofDays(16));
    double grown = Math.sqrt(half * half + 8);
    assertEquals(grown / 250, none.depletionSd(predicted, 275, 3, since, now), 1e-9);
  }

  /**
   * A weighing is good to 1 g, and what was soaked to a twentieth of 250 mL, 12.5 g, at capacity;
   * below it the dry parts count.
   */
  @Test
  void weighedCupIsKnownAsWellAsItWasSoaked() {
    WeightFrame predicted = new WeightFrame(100, 400, 500, 250);
    Instant now = Instant.parse("2027-02-14T08:00:00Z");
    Capacity weighed = Capacity.PREDICTED.weighed(now, 400);
    assertEquals(
        Math.hypot(1, 12.5) / 250, weighed.depletionSd(predicted, 400, 0, null, now), 1e-9);
    double half = Math.sqrt((1 + 156.25) / 4 + 6.25 + 6.25);
    assertEquals(half / 250, weighed.depletionSd(predicted, 275, 0, null, now), 1e-9);
    // In doubt: by a tenth of the available water at capacity.
    double doubted = Math.hypot(1, 25);
    assertEquals(
        doubted / 250, weighed.doubted(now).depletionSd(predicted, 400, 0, null, now), 1e-9);
    // Sixteen days of growth, 0.5 g² each.
    Instant later = now.plus(java.time.Duration.ofDays(16));
    double grown = Math.sqrt(1 + 156.25 + 8);
    assertEquals(grown / 250, weighed.depletionSd(predicted, 400, 0, null, later), 1e-9);
  }
}
