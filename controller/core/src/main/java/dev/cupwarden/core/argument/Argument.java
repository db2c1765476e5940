package dev.cupwarden.core.argument;

/**
 * Refuses numbers outside of their physical range, NaN among them, so that no formula ever returns
 * a silent NaN. Each method gives the value back, to be used where it is checked.
 */
public final class Argument {
  private Argument() {}

  /**
   * A value from {@code least} to {@code greatest}, both allowed.
   *
   * @throws IllegalArgumentException naming the argument, its range and the value
   */
  public static double within(String name, double value, double least, double greatest) {
    if (value >= least && value <= greatest) {
      return value;
    }
    throw refused(name, value, "from " + shown(least) + " to " + shown(greatest));
  }

  /**
   * A value above {@code bound}, which itself is refused, up to {@code greatest}.
   *
   * @throws IllegalArgumentException naming the argument, its range and the value
   */
  public static double above(String name, double value, double bound, double greatest) {
    if (value > bound && value <= greatest) {
      return value;
    }
    throw refused(name, value, "above " + shown(bound) + " and at most " + shown(greatest));
  }

  /**
   * A value from {@code least} to below {@code bound}, which itself is refused.
   *
   * @throws IllegalArgumentException naming the argument, its range and the value
   */
  public static double below(String name, double value, double least, double bound) {
    if (value >= least && value < bound) {
      return value;
    }
    throw refused(name, value, "from " + shown(least) + " to below " + shown(bound));
  }

  /**
   * Any number but NaN and the infinities.
   *
   * @throws IllegalArgumentException naming the argument and the value
   */
  public static double finite(String name, double value) {
    if (Double.isFinite(value)) {
      return value;
    }
    throw refused(name, value, "a finite number");
  }

  private static IllegalArgumentException refused(String name, double value, String expected) {
    return new IllegalArgumentException(name + " must be " + expected + ", not " + shown(value));
  }

  private static String shown(double value) {
    return value == Math.rint(value) && Math.abs(value) < 1e15
        ? Long.toString((long) value)
        : Double.toString(value);
  }
}
