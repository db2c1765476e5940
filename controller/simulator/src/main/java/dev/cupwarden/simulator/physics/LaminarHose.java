package dev.cupwarden.simulator.physics;

import java.util.ArrayDeque;
import java.util.Deque;

/**
 * The plumbing that all cups share, as water slides through it: rings of equal area from the middle
 * to the wall, each a row of its own that mixes with no other. With s the part of the area inside a
 * ring, it moves at 2 (1 - s) times the mean (Hagen-Poiseuille). At first it holds plain water.
 *
 * <p>Mutable and not for several threads.
 */
public final class LaminarHose {
  private static final int RINGS = 64;

  private final double volumeMl;
  private final Deque<double[]>[] rings;

  /** Volume 0: what goes in comes out. */
  public LaminarHose(double volumeMl) {
    this.volumeMl = volumeMl;
    this.rings = rings(volumeMl > 0 ? RINGS : 0);
    for (Deque<double[]> ring : rings) {
      ring.addLast(new double[] {volumeMl / RINGS, 0});
    }
  }

  @SuppressWarnings("unchecked")
  private static Deque<double[]>[] rings(int count) {
    Deque<double[]>[] rings = new Deque[count];
    for (int i = 0; i < count; i++) {
      rings[i] = new ArrayDeque<>();
    }
    return rings;
  }

  /**
   * So much water goes in at one end and as much leaves at the other.
   *
   * @param strength of what goes in
   * @return mean strength of what leaves; that of what goes in where no water moves
   */
  public double push(double ml, double strength) {
    if (volumeMl <= 0 || ml <= 0) {
      return strength;
    }
    double out = 0;
    for (int i = 0; i < rings.length; i++) {
      double inside = (i + 0.5) / rings.length;
      out += push(rings[i], ml * 2 * (1 - inside) / rings.length, strength);
    }
    return Math.max(0, out) / ml;
  }

  /** Through one ring; returns strength times volume of what left it. */
  private static double push(Deque<double[]> ring, double ml, double strength) {
    double[] newest = ring.peekLast();
    if (newest[1] == strength) {
      newest[0] += ml;
    } else {
      ring.addLast(new double[] {ml, strength});
    }
    double leavesMl = ml;
    double out = 0;
    while (leavesMl > 0) {
      double[] oldest = ring.peekFirst();
      double takenMl = Math.min(leavesMl, oldest[0]);
      out += takenMl * oldest[1];
      oldest[0] -= takenMl;
      leavesMl -= takenMl;
      if (oldest[0] <= 0 && ring.size() > 1) {
        ring.removeFirst();
      } else if (takenMl <= 0) {
        break; // Rounding: the ring has no more.
      }
    }
    return out;
  }

  /** What stands in it, mL at label strength. */
  public double labelMl() {
    double sum = 0;
    for (Deque<double[]> ring : rings) {
      for (double[] slug : ring) {
        sum += slug[0] * slug[1];
      }
    }
    return sum;
  }
}
