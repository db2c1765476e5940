package dev.cupwarden.core.estimate;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
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

  @Test
  void predictionGrowsOldAfterFourWeeks() {
    assertTrue(Capacity.PREDICTED.old(Cups.START));
    Capacity told = Capacity.PREDICTED.weighed(Cups.START, 400);
    assertFalse(told.old(Cups.START.plus(Duration.ofDays(27))));
    assertTrue(told.old(Cups.START.plus(Duration.ofDays(29))));
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
}
