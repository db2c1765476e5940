package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import org.junit.jupiter.api.Test;

/** The steps of the chain, each by itself. */
class ChainTest {
  @Test
  void rangeTellsAnEmptyScaleFromAnImpossibleWeight() {
    assertEquals(RangeCheck.Verdict.LIFTED, RangeCheck.judge(-3, Cups.TALL));
    assertEquals(RangeCheck.Verdict.LIFTED, RangeCheck.judge(13, Cups.TALL));
    assertEquals(RangeCheck.Verdict.OUT_OF_RANGE, RangeCheck.judge(60, Cups.TALL));
    assertEquals(RangeCheck.Verdict.PLAUSIBLE, RangeCheck.judge(77, Cups.TALL));
    assertEquals(RangeCheck.Verdict.PLAUSIBLE, RangeCheck.judge(505, Cups.TALL));
    assertEquals(RangeCheck.Verdict.OUT_OF_RANGE, RangeCheck.judge(515, Cups.TALL));
    assertEquals(RangeCheck.Verdict.OUT_OF_RANGE, RangeCheck.judge(-200, Cups.TALL));
  }

  @Test
  void creepIsForgivenAfterALoadChangeAndForgottenWithinHours() {
    Creep creep = Creep.NONE.after(Cups.START, 400);
    assertEquals(0.4, Math.sqrt(creep.var(Cups.START)), 1e-9);
    assertTrue(creep.var(Cups.START.plus(Duration.ofHours(2))) < 1e-6);
  }

  @Test
  void creepAfterAReturnIsNeitherDryingNorWatering() {
    Cups cup = new Cups();
    double massG = cup.dries(48, 320, 1.0);
    cup.reads(0.2);
    cup.reads(0.1);
    for (int looks = 0; looks < 24; looks++) {
      double creepG = -0.3 * Math.exp(-looks * 5 / 15.0);
      cup.reads(massG - 0.2 - looks / 12.0 + creepG + Cups.wobble(looks));
    }
    assertEquals(2, cup.events.size(), cup.events.toString());
    assertEquals(1.0, cup.estimate().rateGPerH(), 0.2);
  }

  @Test
  void driftOfTheScaleIsLearnedFromAWarmingRoom() {
    Cups cup = new Cups();
    // A cup that hardly dries, so that what its scale shows is the scale's own.
    for (int looks = 0; looks < 3 * 288; looks++) {
      double roomC = 20 + 5 * Math.sin(2 * Math.PI * looks / 288);
      double lagging = 20 + 5 * 0.981 * Math.sin(2 * Math.PI * looks / 288 - 0.194);
      double shownG = 320 - 0.05 * looks / 12 + 0.08 * (lagging - 20) + Cups.wobble(looks);
      cup.look(5, new CupReading(Cups.START, shownG, 0, 0.8, roomC, Double.NaN, true));
    }
    assertEquals(0.08, cup.state.filter().gPerC(), 0.03);
    assertTrue(cup.events.isEmpty());
  }

  @Test
  void useOfADayIsItsMean() {
    DryingUse use = DryingUse.NONE;
    assertFalse(use.known());
    for (int i = 0; i < 24; i++) {
      use = use.add(i < 12 ? 0.5 : 1.5, 1, i < 12 ? 0.5 : 1.5);
    }
    assertEquals(1.0, use.gPerHAt(0.9), 1e-9, "1 g/h per kPa of drive, 0.1 of it in still air");
    assertEquals(1.0, use.meanGPerH(), 0.1);
  }

  @Test
  void frameOfAnImpossibleCupIsRefusedByName() {
    assertThrows(IllegalArgumentException.class, () -> new WeightFrame(80, 70, 90, 10));
    assertThrows(IllegalArgumentException.class, () -> new WeightFrame(80, 170, 190, 0));
    assertThrows(IllegalArgumentException.class, () -> new WeightFrame(Double.NaN, 1, 2, 1));
    assertThrows(IllegalArgumentException.class, () -> new EstimatorSettings(Duration.ZERO));
  }
}
