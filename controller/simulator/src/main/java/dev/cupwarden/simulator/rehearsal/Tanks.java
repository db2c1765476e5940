package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Tank;
import java.util.List;

/** What is left in the tanks. A bench without a tank of a kind draws that kind from a tap. */
final class Tanks {
  private final List<Tank> tanks;
  private final double[] leftMl;

  Tanks(Bench bench) {
    this.tanks = List.copyOf(bench.tanks().values());
    this.leftMl = new double[tanks.size()];
    for (int i = 0; i < leftMl.length; i++) {
      leftMl[i] = tanks.get(i).sizeMl();
    }
  }

  int count() {
    return leftMl.length;
  }

  Tank tank(int place) {
    return tanks.get(place);
  }

  double leftMl(int place) {
    return leftMl[place];
  }

  void fill(int place) {
    leftMl[place] = tanks.get(place).sizeMl();
  }

  /** Draws water of one kind; returns what came. */
  double draw(double ml, boolean feed) {
    for (int i = 0; i < leftMl.length; i++) {
      if (tanks.get(i).feed().isPresent() == feed) {
        double drawn = Math.min(ml, leftMl[i]);
        leftMl[i] -= drawn;
        return drawn;
      }
    }
    return ml;
  }

  /** Label strength in the feed tank, 0 without one. */
  double feedStrength() {
    for (Tank tank : tanks) {
      if (tank.feed().isPresent()) {
        return tank.strength();
      }
    }
    return 0;
  }
}
