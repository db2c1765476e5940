package dev.cupwarden.core.limits;

import dev.cupwarden.core.messages.Reason;

/**
 * What a limit says of a pass.
 *
 * @param atMost mL for a limit on water, label strength for a limit on feed; 0 is a veto
 * @param reason in numbers; null where the limit is free
 */
public record Ruling(double atMost, Reason reason) {
  /** Nothing to say. */
  public static final Ruling FREE = new Ruling(Double.POSITIVE_INFINITY, null);

  static Ruling veto(String code, double value, double threshold, String unit) {
    return new Ruling(0.0, new Reason(code, value, threshold, unit));
  }

  static Ruling veto(String code, double value, double threshold, String unit, String detail) {
    return new Ruling(0.0, new Reason(code, value, threshold, unit, detail));
  }

  static Ruling cap(double atMost, String code, double value, double threshold, String unit) {
    return cap(atMost, code, value, threshold, unit, "");
  }

  static Ruling cap(
      double atMost, String code, double value, double threshold, String unit, String detail) {
    return new Ruling(Math.max(0.0, atMost), new Reason(code, value, threshold, unit, detail));
  }
}
