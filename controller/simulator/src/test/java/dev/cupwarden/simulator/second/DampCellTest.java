package dev.cupwarden.simulator.second;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** A load cell of the second world. */
class DampCellTest {
  private static final Breeze ROOM = new Breeze(20, 50, 19, 100, Breeze.STILL_M_PER_S);

  /** Mean and scatter of a cell's readings of 300 g in such air, after days in it. */
  private static double[] shown(long seed, Breeze air) {
    DampCell cell = new DampCell(false, seed);
    for (int i = 0; i < 600; i++) {
      cell.read(300, air, 1.0 / 12, 1);
    }
    double sum = 0;
    double squares = 0;
    double before = cell.read(300, air, 1.0 / 12, 1);
    for (int i = 0; i < 300; i++) {
      double now = cell.read(300, air, 1.0 / 12, 1);
      sum += now;
      squares += (now - before) * (now - before) / 2;
      before = now;
    }
    return new double[] {sum / 300, Math.sqrt(squares / 300)};
  }

  @Test
  void dampAndWarmthMoveTheZeroOfMostCells() {
    int damp = 0;
    int warm = 0;
    for (long seed = 1; seed <= 20; seed++) {
      double still = shown(seed, ROOM)[0];
      Breeze damper = new Breeze(20, 85, 19, 100, Breeze.STILL_M_PER_S);
      Breeze warmer = new Breeze(30, 50, 19, 100, Breeze.STILL_M_PER_S);
      damp += Math.abs(shown(seed, damper)[0] - still) > 0.1 ? 1 : 0;
      warm += Math.abs(shown(seed, warmer)[0] - still) > 0.1 ? 1 : 0;
    }
    assertTrue(damp >= 10 && warm >= 10, damp + " and " + warm);
  }

  @Test
  void aFanShakesIt() {
    Breeze blown = new Breeze(20, 50, 19, 100, 0.6);
    assertTrue(shown(2, blown)[1] > 1.7 * shown(2, ROOM)[1]);
  }

  @Test
  void itCreepsAfterALoad() {
    double early = 0;
    double late = 0;
    for (long seed = 1; seed <= 200; seed++) {
      DampCell cell = new DampCell(false, seed);
      cell.read(0, ROOM, 1, 1);
      early += cell.read(500, ROOM, 1.0 / 60, 1) / 200;
      for (int i = 0; i < 36; i++) {
        cell.read(500, ROOM, 1.0 / 12, 1);
      }
      late += cell.read(500, ROOM, 1.0 / 12, 1) / 200;
    }
    assertTrue(late - early > 0.15 && late - early < 0.6, "crept " + (late - early));
  }

  @Test
  void aKnockStays() {
    DampCell knocked = new DampCell(false, 3);
    DampCell other = new DampCell(false, 3);
    knocked.read(300, ROOM, 1.0 / 12, 1);
    other.read(300, ROOM, 1.0 / 12, 1);
    knocked.bump(2);
    double shown = knocked.read(300, ROOM, 1.0 / 12, 1);
    assertEquals(other.read(300, ROOM, 1.0 / 12, 1) + 2, shown, 0.02);
    assertEquals(shown, knocked.stuck());
  }
}
