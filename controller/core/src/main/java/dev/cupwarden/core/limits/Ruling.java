package dev.cupwarden.core.limits;

/**
 * What a limit says of a pass; its row makes a reason of it.
 *
 * @param atMost mL for a limit on water, label strength for a limit on feed; 0 is a veto, infinite
 *     is free
 * @param value what was found
 * @param threshold what it was held against
 * @param detail which of several things it is; "" where the code says all
 * @param unit of both where the detail has its own; null where it is the row's
 */
public record Ruling(double atMost, double value, double threshold, String detail, String unit) {
  /** Nothing to say. */
  public static final Ruling FREE = new Ruling(Double.POSITIVE_INFINITY, 0.0, 0.0, "", null);

  static Ruling veto(double value, double threshold) {
    return new Ruling(0.0, value, threshold, "", null);
  }

  static Ruling veto(String detail, double value, double threshold, String unit) {
    return new Ruling(0.0, value, threshold, detail, unit);
  }

  static Ruling cap(double atMost, double value, double threshold) {
    return cap(atMost, value, threshold, "");
  }

  static Ruling cap(double atMost, double value, double threshold, String detail) {
    return cap(atMost, value, threshold, detail, null);
  }

  static Ruling cap(double atMost, double value, double threshold, String detail, String unit) {
    return new Ruling(Math.max(0.0, atMost), value, threshold, detail, unit);
  }

  boolean free() {
    return atMost == Double.POSITIVE_INFINITY;
  }
}
