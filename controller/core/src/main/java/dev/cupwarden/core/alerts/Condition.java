package dev.cupwarden.core.alerts;

/**
 * Something a person should know of, as it stands at one moment.
 *
 * @param code the alert
 * @param cup whose; null for the whole bench
 * @param level how it stands
 * @param value what was found
 * @param threshold what it was held against
 * @param whatToDo what to do about this very one; null: as ever
 * @param tank which; null where it is of no tank
 * @param severity rises while it grows worse; 0 as it begins
 * @param bound whether {@code value} is a bound that one in twenty exceeds, not what was measured
 */
public record Condition(
    AlertCode code,
    String cup,
    Level level,
    double value,
    double threshold,
    String whatToDo,
    String tank,
    int severity,
    boolean bound) {
  /** About which there is to do what its code says. */
  public Condition(AlertCode code, String cup, Level level, double value, double threshold) {
    this(code, cup, level, value, threshold, null);
  }

  /** As it begins. */
  public Condition(
      AlertCode code, String cup, Level level, double value, double threshold, String whatToDo) {
    this(code, cup, level, value, threshold, whatToDo, null, 0, false);
  }

  /** How a condition stands; the band between keeps an alert from flickering. */
  public enum Level {
    /** Far enough from the threshold to clear what stands. */
    OFF,
    /** Between: what stands stays, nothing new is raised. */
    BETWEEN,
    /** So. */
    ON;

    /** On above one value, off below a lower one. */
    public static Level above(double value, double threshold, double clearBelow) {
      return value > threshold ? ON : value < clearBelow ? OFF : BETWEEN;
    }

    /** On below one value, off above a higher one. */
    public static Level below(double value, double threshold, double clearAbove) {
      return value < threshold ? ON : value > clearAbove ? OFF : BETWEEN;
    }
  }

  /** Simply so or not. */
  static Condition when(AlertCode code, String cup, boolean so, double value, double threshold) {
    return new Condition(code, cup, so ? Level.ON : Level.OFF, value, threshold);
  }

  /** The same with that to do about it. */
  public Condition saying(String sentence) {
    return new Condition(code, cup, level, value, threshold, sentence, tank, severity, bound);
  }

  /** The same of one tank. */
  public Condition ofTank(String name) {
    return new Condition(code, cup, level, value, threshold, whatToDo, name, severity, bound);
  }

  /** The same, so much worse than as it began. */
  public Condition severe(int steps) {
    return new Condition(code, cup, level, value, threshold, whatToDo, tank, steps, bound);
  }

  /** The same, by a bound that one in twenty exceeds. */
  public Condition byBound() {
    return new Condition(code, cup, level, value, threshold, whatToDo, tank, severity, true);
  }

  /** The key under which an alert of it stands. */
  String key() {
    return Subject.key(code.word(), cup, tank);
  }
}
