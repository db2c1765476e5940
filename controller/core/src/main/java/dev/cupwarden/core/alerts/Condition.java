package dev.cupwarden.core.alerts;

/**
 * Something a person should know of, as it stands at one moment.
 *
 * @param code the alert's name
 * @param cup whose; null for the whole bench
 * @param level how it stands
 * @param value what was found
 * @param threshold what it was held against
 * @param whatToDo what to do about this very one; null: as ever
 */
public record Condition(
    String code, String cup, Level level, double value, double threshold, String whatToDo) {
  /** About which there is to do what its code says. */
  public Condition(String code, String cup, Level level, double value, double threshold) {
    this(code, cup, level, value, threshold, null);
  }

  /** How a condition stands; the band between keeps an alert from flickering. */
  public enum Level {
    /** Far enough from the threshold to clear what stands. */
    OFF,
    /** Between: what stands stays, nothing new is raised. */
    BETWEEN,
    /** Said ahead of time. */
    WARN,
    /** So. */
    ON
  }

  /** Simply so or not. */
  static Condition when(String code, String cup, boolean so, double value, double threshold) {
    return new Condition(code, cup, so ? Level.ON : Level.OFF, value, threshold);
  }

  /** The key under which an alert of it stands. */
  String key() {
    return cup == null ? code : code + "/" + cup;
  }
}
