package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A scale that falls by itself asks for water that its cup does not need. */
class DriftingScaleStoryTest {
  private static final double GREW_G_PER_H = 1.2;

  @ParameterizedTest
  @CsvSource({
    "0.5, false, 1", "0.5, false, 5", "0.5, true, 1", "0.5, true, 5",
    "2, false, 1", "2, false, 5", "2, true, 1", "2, true, 5",
    "5, false, 1", "5, false, 5", "5, true, 1", "5, true, 5"
  })
  void fallingScaleIsToldBeforeTheCupIsWet(double driftGPerH, boolean drains, int cups) {
    TrueWater water = new TrueWater(cups, 0.30, GREW_G_PER_H);
    water.drains = drains;
    water.run(Duration.ofDays(10));
    assertFalse(water.told("A1"), "nothing is wrong yet");
    double wet = water.wetLine();
    water.watch();
    double givenMl = water.story.givenMl("A1");
    water.driftGPerH.put("A1", driftGPerH);
    int hours = 0;
    double before = water.depletion("A1");
    for (; !water.told("A1") && hours < 24 * 30; hours++) {
      water.run(Duration.ofHours(1));
    }
    double neededMl = GREW_G_PER_H * hours + (before - TrueWater.REFILL) * TrueWater.AVAILABLE_ML;
    double beyondMl = water.story.givenMl("A1") - givenMl - neededMl;
    assertTrue(water.told("A1"), "told");
    assertTrue(water.least > wet - 0.06, () -> "least " + water.least + ", wet line " + wet);
    assertTrue(beyondMl < 0.25 * TrueWater.AVAILABLE_ML, () -> beyondMl + " mL beyond need");
  }

  @Test
  void cupOfADriftingScaleIsUntrustedAndSaysWhatToDo() {
    TrueWater water = drifting();
    Advice advice = water.look();
    assertFalse(advice.cups().get("A1").trusted());
    assertTrue(advice.cups().get("A1").checks().contains("untrusted"));
    assertEquals(water.depletion("A1"), advice.cups().get("A1").depletion(), 0.15);
    String why =
        water
            .story
            .tick
            .standing(water.story.state)
            .decisions()
            .get("A1")
            .reasons()
            .get(0)
            .sentence();
    assertTrue(why.startsWith("its scale seems to drift: it falls by "), why);
    double toldMl = water.story.givenMl("A1");
    water.run(Duration.ofHours(20));
    assertEquals(toldMl, water.story.givenMl("A1"), "nothing on that weight");
  }

  @Test
  void drainedWeighingEndsTheDoubtAndAGoingDriftIsFoundAgain() {
    TrueWater water = drifting();
    water.trueG.put("A1", TrueWater.CAPACITY_G);
    water.look("{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\"}");
    water.run(Duration.ofHours(1));
    assertTrue(water.look().cups().get("A1").trusted());
    assertTrue(water.story.cleared("scale-drifting"));
    assertEquals(water.depletion("A1"), water.look().cups().get("A1").depletion(), 0.03);
    water.story.alerts.clear();
    for (int hour = 0; !water.told("A1") && hour < 48; hour++) {
      water.run(Duration.ofHours(1));
    }
    assertTrue(water.told("A1"), "told again");
  }

  @Test
  void personWhoTriedTheScaleClearsIt() {
    TrueWater water = drifting();
    water.driftGPerH.clear();
    water.look("{\"id\":\"c\",\"kind\":\"clear\",\"cup\":\"A1\"}");
    water.run(Duration.ofHours(1));
    assertTrue(water.look().cups().get("A1").trusted());
    assertTrue(water.story.cleared("scale-drifting"));
  }

  private static TrueWater drifting() {
    TrueWater water = new TrueWater(1, 0.30, GREW_G_PER_H);
    water.run(Duration.ofDays(10));
    water.driftGPerH.put("A1", 2.0);
    for (int hour = 0; !water.told("A1") && hour < 72; hour++) {
      water.run(Duration.ofHours(1));
    }
    assertTrue(water.told("A1"));
    return water;
  }

  /** No sensor of light: a leafy cup under a lamp rests by night, a drift does not. */
  @Test
  void lampOverALeafyCupIsNoDrift() {
    TrueWater water = new TrueWater(1, 0.30, 0.8);
    for (int hour = 0; hour < 24 * 30; hour++) {
      boolean lit = hour % 24 >= 7 && hour % 24 < 19;
      double times = !lit ? 1.0 : hour < 24 * 10 ? 2.0 : 5.0;
      water.rateGPerH.put("A1", 0.8 * times);
      water.run(Duration.ofHours(1));
    }
    assertFalse(water.told("A1"));
    assertTrue(water.most < TrueWater.DRY, () -> "dry: " + water.most);
  }

  @Test
  void dryWindOverTheWholeBenchIsNoDrift() {
    TrueWater water = new TrueWater(5, 0.30, 0.8);
    water.run(Duration.ofDays(10));
    water.rateGPerH.replaceAll((cup, gPerH) -> 2.5 * gPerH);
    water.run(Duration.ofDays(10));
    for (String cup : water.trueG.keySet()) {
      assertFalse(water.told(cup), cup);
    }
  }

  @Test
  void cupThatWasRepottedIsLearnedAnew() {
    TrueWater water = new TrueWater(1, 0.30, 0.8);
    water.run(Duration.ofDays(10));
    water.rateGPerH.put("A1", 2.4);
    String repot = "{\"id\":\"p\",\"kind\":\"repot\",\"cup\":\"A1\",\"vessel\":\"tall\",";
    water.look(repot + "\"mix\":\"coir-perlite\"}");
    water.look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":\"circling\"}");
    water.run(Duration.ofDays(10));
    assertFalse(water.told("A1"));
  }
}
