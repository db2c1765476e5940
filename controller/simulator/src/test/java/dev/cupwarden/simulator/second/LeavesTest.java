package dev.cupwarden.simulator.second;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.checks.Outside;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.world.MixSheet;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What lit leaves of the second world lose, against what was measured of others. */
class LeavesTest {
  private static final Vessel TALL = new Vessel("tall", 92, 60, 112, 13);
  private static final MixSheet SHEET = new MixSheet(0.85, 0.52, 0.30, 0.15, 0.11);
  private static final double CM2 = 200;

  private static Nature.WoodNature nature(long seed) {
    return Nature.draw(
            TALL,
            SHEET,
            LayeredCupPropertiesTest.entered(TALL, RootStage.CIRCLING),
            new SplittableRandom(seed))
        .wood();
  }

  /** Lit for three hours at 21 °C, turgid: g/h, bark included. */
  private static double lossGPerH(double deficitKpa, double lightUmol) {
    Leaves leaves = new Leaves(nature(1), CM2);
    double rhPct = 100 * (1 - 1000 * deficitKpa / Penman.vapourPa(21));
    Breeze air = new Breeze(21, rhPct, 21, lightUmol, Breeze.STILL_M_PER_S);
    double loss = 0;
    for (int minute = 0; minute < 180; minute++) {
      loss = leaves.lossMlPerH(1 / 60.0, air, 1);
    }
    return loss;
  }

  /**
   * Beyond 1 kPa, which a heated room seldom passes, ours still rises 1.7 times for twice the
   * deficit: its leaves are too thirsty in very dry air. It is told, not tuned.
   */
  @Test
  @Outside(
      source =
          "Hogg and Hurdle 1997, Tree Physiology 17:501, abstract: use of aspens rises in"
              + " proportion to the deficit up to 1 kPa, and not beyond")
  void useRisesNearlyInProportionToTheDeficitUpToOneKilopascalAndLessBeyond() {
    double none = lossGPerH(0, 140);
    double toOne = (lossGPerH(1, 140) - none) / (lossGPerH(0.5, 140) - none);
    double toTwo = (lossGPerH(2, 140) - none) / (lossGPerH(1, 140) - none);
    System.out.printf("use from 0.5 to 1 kPa x %.2f, from 1 to 2 kPa x %.2f%n", toOne, toTwo);
    assertEquals(2, toOne, 0.25);
    assertTrue(toTwo < toOne - 0.1, "from 1 to 2 kPa: x " + toTwo);
  }

  @Test
  @Outside(
      source =
          "night against day: 0.06 to 0.10 of tomatoes in the field (Caird 2007, thesis,"
              + " abstract), 0.12 to 0.23 of bean and cotton under lysimeters (Resco de Dios et al."
              + " 2015, Scientific Reports 5:10975)")
  void theNightsShareOfUseIsThatOfMeasuredPlants() {
    double byNight = 10 * lossGPerH(1, 0);
    double byDay = 14 * lossGPerH(1, 140);
    double share = byNight / byDay;
    System.out.printf("night's use is %.3f of the day's%n", share);
    assertTrue(share > 0.06 && share < 0.23, "share " + share);
  }

  @Test
  @Outside(
      source =
          "Liu et al. 1978, J. Am. Soc. Hort. Sci. 103:226, abstract: least resistance of lit vine"
              + " leaves 1.0 s/cm, standard deviation 0.5")
  void theLeastResistanceOfALeafIsThatOfVines() {
    for (long seed = 1; seed <= 200; seed++) {
      double sPerM = nature(seed).leafSPerM();
      assertTrue(sPerM > 50 && sPerM < 350, "s/m: " + sPerM);
    }
  }
}
