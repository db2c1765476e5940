package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.world.TrueCup;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongToDoubleFunction;
import org.junit.jupiter.api.Test;

/**
 * Two worlds that tell the same story prove nothing twice: the same cups of one bench file, in the
 * same air and under the same waterings, must go another way in each. Figures are printed.
 */
class TwoWorldsDifferTest {
  private static final RoomAir DAMP = RoomAir.of(20, 100, 20, 0);
  private static final RoomAir NIGHT = RoomAir.of(18, 50, 18, 0);
  private static final RoomAir DAY = RoomAir.of(21, 50, 20, 120);
  private static final Bench BENCH = UsualBench.of(6);
  private static final int SEEDS = 15;

  private static TrueCup cup(World world, String name, RootStage stage, long seed) {
    return world.cup(
        BENCH,
        BENCH.cups().get(name).withStage(stage),
        BENCH.feeds().values().stream().findFirst(),
        seed);
  }

  private static double median(LongToDoubleFunction ofSeed) {
    List<Double> found = new ArrayList<>();
    for (long seed = 1; seed <= SEEDS; seed++) {
      found.add(ofSeed.applyAsDouble(seed));
    }
    found.sort(null);
    return found.get(SEEDS / 2);
  }

  @Test
  void waterUnderTheSameWateringsIsThreeHundredthsApart() {
    for (String name : BENCH.cups().keySet()) {
      double apart = median(seed -> waterApart(name, seed));
      System.out.printf("%s: water %.3f of volume apart, rms%n", name, apart);
      assertTrue(apart >= 0.03, name + ": " + apart);
    }
  }

  /** Rms over a month, as a fraction of the volume of mix as entered. */
  private static double waterApart(String name, long seed) {
    TrueCup first = cup(World.FIRST, name, RootStage.WHITE, seed);
    TrueCup second = cup(World.SECOND, name, RootStage.WHITE, seed);
    var vessel = BENCH.vessels().get(BENCH.cups().get(name).vessel());
    double top = vessel.topMm() / 20;
    double base = vessel.baseMm() / 20;
    double volumeMl = Math.PI / 30 * vessel.depthMm() * (top * top + top * base + base * base);
    double squares = 0;
    int hours = 30 * 24;
    for (int h = 0; h < hours; h++) {
      RoomAir air = h % 24 < 14 ? DAY : NIGHT;
      first.advance(3600, air);
      second.advance(3600, air);
      if (h % 72 == 0) {
        first.give(30, 0);
        second.give(30, 0);
      }
      double apart = (first.waterMl() - second.waterMl()) / volumeMl;
      squares += apart * apart;
    }
    return Math.sqrt(squares / hours);
  }

  @Test
  void drainageTakesThreeTimesAsLong() {
    for (String name : BENCH.cups().keySet()) {
      double first = median(seed -> drainedAfterH(World.FIRST, name, seed));
      double second = median(seed -> drainedAfterH(World.SECOND, name, seed));
      System.out.printf("%s: drained after %.2f h and %.2f h%n", name, first, second);
      assertTrue(second >= 3 * first, name + ": " + first + " and " + second);
      assertTrue(second < 12, name + " drains for " + second + " h");
    }
  }

  /** Until 95 % of what will drain after three passes of 60 mL has drained. */
  private static double drainedAfterH(World world, String name, long seed) {
    TrueCup cup = cup(world, name, RootStage.STRUCK, seed);
    cup.advance(86_400, DAMP);
    for (int i = 0; i < 3; i++) {
      cup.give(60, 0);
      cup.advance(900, DAMP);
    }
    List<Double> ml = new ArrayList<>();
    for (int minute = 0; minute < 48 * 60; minute++) {
      ml.add(cup.waterMl());
      cup.advance(60, DAMP);
    }
    double end = cup.waterMl();
    int minute = 0;
    while (ml.get(minute) - end > 0.05 * (ml.get(0) - end)) {
      minute++;
    }
    return minute / 60.0;
  }

  @Test
  void useRisesAtLightsOnTwiceAsFastInOneAsInTheOther() {
    double first = median(seed -> riseAtLightsOn(World.FIRST, seed));
    double second = median(seed -> riseAtLightsOn(World.SECOND, seed));
    System.out.printf(
        "rise of use in the first quarter hour of light: %.3f, %.3f g/h%n", first, second);
    assertTrue(first >= 2 * second, first + " and " + second);
  }

  private static double riseAtLightsOn(World world, long seed) {
    TrueCup cup = cup(world, "C001", RootStage.CIRCLING, seed);
    cup.advance(86_400, NIGHT);
    double before = cup.grossG() + cup.trayMl();
    cup.advance(3600, NIGHT);
    double dark = cup.grossG() + cup.trayMl();
    cup.advance(900, DAY);
    double lit = cup.grossG() + cup.trayMl();
    return 4 * (dark - lit) - (before - dark);
  }

  @Test
  void rotHasOtherCausesInEach() {
    int[] rotted = new int[2];
    for (World world : World.values()) {
      for (long seed = 1; seed <= 80; seed++) {
        TrueCup cup = cup(world, "C006", RootStage.WHITE, seed);
        for (int h = 0; h < 10 * 24; h++) {
          cup.give(15, 0);
          cup.advance(3600, DAMP);
        }
        rotted[world.ordinal()] += cup.rot() >= 0.5 ? 1 : 0;
      }
    }
    System.out.printf("rotted of 80 after ten sodden days: %d and %d%n", rotted[0], rotted[1]);
    assertTrue(rotted[0] >= 75, "in the first world want of air is enough: " + rotted[0]);
    assertTrue(rotted[1] >= 12 && rotted[1] <= 45, "in the second, a mould: " + rotted[1]);
  }

  /** A mix kept as wet as it drains has air enough on the whole, but not about the cut. */
  @Test
  void rootsComeByOtherCausesInEach() {
    double first = rooted(World.FIRST, 0) / rooted(World.FIRST, 0.35);
    double second = rooted(World.SECOND, 0) / rooted(World.SECOND, 0.35);
    System.out.printf("days to roots, kept full over kept moist: %.2f and %.2f%n", first, second);
    assertTrue(first < 1.3, "in the first world mean air decides: " + first);
    assertTrue(second > 2 * first, "in the second the air at the cut: " + second);
  }

  private static double rooted(World world, double kept) {
    return median(
        seed -> {
          TrueCup cup = cup(world, "C004", RootStage.STRUCK, seed);
          int hours = 0;
          while (!cup.stage().rooted() && hours < 200 * 24) {
            cup.advance(3600, RoomAir.of(20, 70, 20, 60));
            if (cup.depletion() > kept) {
              cup.give(5, 0);
            }
            hours++;
          }
          return hours / 24.0;
        });
  }
}
