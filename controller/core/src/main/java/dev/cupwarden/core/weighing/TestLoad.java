package dev.cupwarden.core.weighing;

import dev.cupwarden.core.argument.Argument;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Weights put on a scale together, and how far their mass may be from what they say. Their
 * tolerances add up.
 *
 * @param massG what the weights say, 0 or more
 * @param toleranceG how far from it they may be, 0 or more
 */
public record TestLoad(double massG, double toleranceG) {
  /** Nothing on the scale. */
  public static final TestLoad NONE = new TestLoad(0, 0);

  /** Tolerance of class M1, mg, by nominal mass in g; below 50 g and above 1 kg from memory. */
  private static final TreeMap<Double, Double> M1_MG =
      new TreeMap<>(
          Map.ofEntries(
              Map.entry(1.0, 1.0),
              Map.entry(2.0, 1.2),
              Map.entry(5.0, 1.6),
              Map.entry(10.0, 2.0),
              Map.entry(20.0, 2.5),
              Map.entry(50.0, 3.0),
              Map.entry(100.0, 5.0),
              Map.entry(200.0, 10.0),
              Map.entry(500.0, 25.0),
              Map.entry(1000.0, 50.0),
              Map.entry(2000.0, 100.0),
              Map.entry(5000.0, 250.0)));

  /**
   * @throws IllegalArgumentException for a figure out of range
   */
  public TestLoad {
    Argument.within("massG", massG, 0, 1e6);
    Argument.within("toleranceG", toleranceG, 0, 1e6);
  }

  /**
   * Weights of class M1, by OIML R 111.
   *
   * @param nominalG each weight's mass: 1, 2 or 5 g, or ten, a hundred or a thousand times that
   * @throws IllegalArgumentException for a mass that the class does not have here
   */
  public static TestLoad classM1(List<Double> nominalG) {
    double massG = 0;
    double toleranceMg = 0;
    for (double nominal : nominalG) {
      Double mg = M1_MG.get(nominal);
      if (mg == null) {
        throw new IllegalArgumentException(
            "nominalG must be one of " + M1_MG.keySet() + ", not " + nominal);
      }
      massG += nominal;
      toleranceMg += mg;
    }
    return new TestLoad(massG, toleranceMg / 1000);
  }
}
