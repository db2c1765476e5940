package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.util.Locale;
import java.util.Optional;

/** What an alert found beside its limit, with units, for a person who is not at the bench. */
public final class AlertFigures {
  private AlertFigures() {}

  /** As "49 h, limit 48 h"; empty where it is so or not so, and a number says nothing. */
  public static Optional<String> words(AlertNotice alert) {
    return AlertCode.find(alert.code()).flatMap(code -> words(code, alert));
  }

  private static Optional<String> words(AlertCode code, AlertNotice alert) {
    if (alert.cup() == null && code.countsCups()) {
      return alert.value() > 0.0
          ? Optional.of(String.format(Locale.ROOT, "in %.0f cups", alert.value()))
          : Optional.empty();
    }
    Optional<String> part = code.part();
    if (part.isPresent()) {
      String found = number(100.0 * alert.value(), "%") + " " + part.get();
      return Optional.of(found + ", limit " + number(100.0 * alert.threshold(), "%"));
    }
    // A leak is so or not so, until water is measured out to its bench.
    boolean unmeasured = code == AlertCode.LEAK && alert.threshold() == 0.0;
    String unit = unmeasured ? "" : code.unit();
    return unit.isEmpty()
        ? Optional.empty()
        : Optional.of(number(alert.value(), unit) + ", limit " + number(alert.threshold(), unit));
  }

  private static String number(double value, String unit) {
    String number = String.format(Locale.ROOT, "%.2f", value).replaceAll("\\.?0+$", "");
    return number + " " + unit;
  }
}
