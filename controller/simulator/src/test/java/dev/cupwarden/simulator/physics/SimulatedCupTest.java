package dev.cupwarden.simulator.physics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import java.util.Optional;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class SimulatedCupTest {
  private static final Vessel TALL = new Vessel("tall", 92, 60, 112, 13);
  private static final Mix COIR_PERLITE =
      new Mix("coir-perlite", 0.82, 0.12, 0.22, 1.55, 0.10, 0.10, 0.10);
  private static final FeedChemistry LEAFY = new FeedChemistry(0.306, 1.91, 0.30);
  private static final RoomAir LIVING_ROOM = RoomAir.of(20, 60, 19, 100);

  /** Fine: its mean air space when drained is below a tenth (synthetic values). */
  private static final Mix FINE_PEAT = new Mix("fine", 0.90, 0.20, 0.09, 2.0, 0.20, 0.10, 0.10);

  private static SimulatedCup cup(RootStage stage, long seed) {
    return cup(COIR_PERLITE, stage, seed);
  }

  private static SimulatedCup cup(Mix mix, RootStage stage, long seed) {
    Cup entered =
        new Cup(
            "A1",
            "tall",
            mix.name(),
            "blackcurrant",
            Optional.empty(),
            stage,
            14,
            Optional.empty(),
            Cup.Wiring.NONE);
    return new SimulatedCup(TALL, mix, entered, LEAFY, seed);
  }

  @Property(tries = 60)
  void whatCameInIsThereOrWentOut(
      @ForAll long seed,
      @ForAll RootStage stage,
      @ForAll @DoubleRange(min = 0, max = 80) double mostMl,
      @ForAll @IntRange(min = 1, max = 60) int days) {
    SimulatedCup cup = cup(stage, seed);
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < days * 24; i++) {
      if (random.nextDouble() < 0.05) {
        cup.give(random.nextDouble() * mostMl, random.nextDouble());
      }
      cup.advance(
          3600 * random.nextDouble(),
          RoomAir.of(
              5 + 25 * random.nextDouble(),
              100 * random.nextDouble(),
              5 + 25 * random.nextDouble(),
              400 * random.nextDouble()));
    }
    assertTrue(cup.balance().error() < 1e-9, () -> cup.balance().toString());
    assertTrue(cup.waterMl() > 0);
  }

  @Test
  void theSaturationPressureIsThatOfTheTables() {
    // FAO-56, annex table 2.3, kPa, by the Tetens form: 20 C 2.338, 25 C 3.168, 5 C 0.872. Buck's
    // formula differs from it by a few parts in a thousand.
    assertEquals(2.338, RoomAir.saturationKpa(20), 0.004);
    assertEquals(3.168, RoomAir.saturationKpa(25), 0.005);
    assertEquals(0.872, RoomAir.saturationKpa(5), 0.002);
  }

  @Test
  void drainageStopsAtCapacityNearWhatTheBenchFileForetells() {
    // 323.31 mL: the example cup's water at capacity, by quadrature of van Genuchten's curve.
    double sum = 0;
    for (int seed = 0; seed < 400; seed++) {
      SimulatedCup cup = cup(RootStage.STRUCK, seed);
      cup.give(200, 0);
      cup.advance(3 * 3600, RoomAir.of(20, 100, 20, 0));
      assertEquals(cup.capacityMl(), cup.waterMl(), 0.5);
      assertEquals(323.31, cup.capacityMl(), 323.31 * 0.20);
      sum += cup.waterMl();
    }
    assertEquals(323.31, sum / 400, 323.31 * 0.02);
  }

  @Test
  void mostOfTheExcessHasRunOutWithinAQuarterOfAnHour() {
    // Pots drain in 10 to 15 min (Purdue's pot method for air space).
    double drained = 0;
    double excess = 0;
    for (int seed = 0; seed < 200; seed++) {
      SimulatedCup cup = cup(RootStage.STRUCK, seed);
      cup.give(60, 0);
      excess += cup.waterMl() - cup.capacityMl();
      cup.advance(20 * 60, RoomAir.of(20, 100, 20, 0));
      drained += cup.trayMl();
    }
    assertTrue(drained > 0.6 * excess, drained + " of " + excess);
  }

  @Test
  void bareMixDriesAtAConstantRateFirstAndAFallingRateThen() {
    SimulatedCup cup = cup(RootStage.STRUCK, 3);
    double[] lossByDayG = new double[40];
    for (int day = 0; day < 40; day++) {
      double before = cup.grossG();
      cup.advance(86_400, RoomAir.of(20, 50, 6, 0));
      lossByDayG[day] = before - cup.grossG();
    }
    assertEquals(lossByDayG[0], lossByDayG[1], 0.05 * lossByDayG[0]);
    assertTrue(lossByDayG[39] < 0.6 * lossByDayG[0], lossByDayG[39] + " of " + lossByDayG[0]);
    for (int day = 1; day < 40; day++) {
      assertTrue(lossByDayG[day] <= lossByDayG[day - 1] + 1e-6);
    }
  }

  @Test
  void leavesUseWaterAtAPlateauThatBreaksBetweenAFifthAndHalfOfTheWaterLeft() {
    // Critical fraction of transpirable water commonly 0.2 to 0.4 (from memory).
    SimulatedCup cup = grown(5);
    cup.advance(2 * 3600, LIVING_ROOM);
    double full = hourlyLossG(cup);
    while (cup.depletion() < 0.5) {
      cup.advance(3600, LIVING_ROOM);
    }
    double half = hourlyLossG(cup);
    while (cup.depletion() < 0.92) {
      cup.advance(3600, LIVING_ROOM);
    }
    double dry = hourlyLossG(cup);
    assertEquals(full, half, 0.35 * full);
    assertTrue(dry < 0.5 * half, full + " " + half + " " + dry);
  }

  @Test
  void aDryCupShedsAFloodAndTakesSmallPasses() {
    double flooded = 0;
    double inPasses = 0;
    for (int seed = 0; seed < 50; seed++) {
      flooded += runThrough(seed, 90, 1);
      inPasses += runThrough(seed, 15, 6);
    }
    assertTrue(flooded > 5 * 50, "a flood ran through: " + flooded / 50);
    assertTrue(inPasses < 0.6 * flooded, inPasses + " of " + flooded);
  }

  private static double runThrough(long seed, double passMl, int passes) {
    SimulatedCup cup = cup(RootStage.TOUGHENED, seed);
    while (cup.depletion() < 0.85) {
      cup.advance(6 * 3600, LIVING_ROOM);
    }
    for (int i = 0; i < passes; i++) {
      cup.give(passMl, 0);
      cup.advance(12 * 60, LIVING_ROOM);
    }
    return cup.trayMl();
  }

  @Test
  void fineMixKeptAtCapacityRotsRootsAndKeptBelowItDoesNot() {
    int drowned = 0;
    for (int seed = 0; seed < 20; seed++) {
      SimulatedCup sodden = cup(FINE_PEAT, RootStage.WHITE, seed);
      SimulatedCup kept = cup(FINE_PEAT, RootStage.WHITE, seed);
      for (int hour = 0; hour < 24 * 30; hour++) {
        sodden.give(10, 0);
        sodden.advance(3600, LIVING_ROOM);
        kept.give(kept.depletion() > 0.4 ? 10 : 0, 0);
        kept.advance(3600, LIVING_ROOM);
      }
      drowned += sodden.rotted() ? 1 : 0;
      assertTrue(kept.alive() && kept.rot() < 0.2, "rot " + kept.rot());
    }
    assertTrue(drowned >= 15, "drowned of twenty: " + drowned);
  }

  @Test
  void aForgottenCupWiltsAndDies() {
    SimulatedCup cup = grown(7);
    cup.advance(40 * 86_400.0, LIVING_ROOM);
    assertFalse(cup.alive());
    assertFalse(cup.rotted());
  }

  @Test
  void rootsComeInTheirOrderInSomeWeeks() {
    SimulatedCup cup = cup(RootStage.STRUCK, 2);
    int[] days = new int[4];
    for (int day = 0; day < 150; day++) {
      while (cup.depletion() > 0.3) {
        cup.give(5, 0.3);
        cup.advance(60, LIVING_ROOM);
      }
      cup.advance(86_400, LIVING_ROOM);
      days[cup.stage().ordinal()]++;
    }
    assertTrue(days[0] > 14 && days[0] < 70, "days to white roots: " + days[0]);
    assertTrue(days[1] > 4 && days[2] > 4, days[1] + " " + days[2]);
    assertEquals(RootStage.CIRCLING, cup.stage());
    assertTrue(cup.leafCm2() > 60, "leaf " + cup.leafCm2());
  }

  @Test
  void saltsStayWhereWaterOnlyEvaporates() {
    SimulatedCup cup = cup(RootStage.STRUCK, 4);
    double before = cup.ecMsPerCm();
    assertEquals(0.30, before, 1e-9);
    cup.advance(6 * 86_400.0, RoomAir.of(20, 50, 6, 0));
    assertTrue(cup.ecMsPerCm() > before * 1.05);
    assertTrue(cup.ecAtCapacityMsPerCm() <= before);
  }

  @Test
  void thatManyMillilitresCannotBeGiven() {
    SimulatedCup cup = cup(RootStage.STRUCK, 4);
    assertThrows(IllegalArgumentException.class, () -> cup.give(-1, 0));
    assertThrows(IllegalArgumentException.class, () -> cup.give(Double.NaN, 0));
  }

  private static SimulatedCup grown(long seed) {
    SimulatedCup cup = cup(RootStage.CIRCLING, seed);
    for (int day = 0; day < 30; day++) {
      while (cup.depletion() > 0.1) {
        cup.give(5, 0.3);
        cup.advance(60, LIVING_ROOM);
      }
      cup.advance(86_400, LIVING_ROOM);
    }
    while (cup.depletion() > 0.0) {
      cup.give(5, 0);
      cup.advance(300, LIVING_ROOM);
    }
    return cup;
  }

  private static double hourlyLossG(SimulatedCup cup) {
    double before = cup.grossG();
    cup.advance(3600, LIVING_ROOM);
    return before - cup.grossG();
  }
}
