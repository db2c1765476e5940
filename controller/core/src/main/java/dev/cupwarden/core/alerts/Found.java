package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** What an alert found beside its limit, with units, for a person who is not at the bench. */
public final class Found {
  private static final Map<String, String> UNITS =
      Map.ofEntries(
          Map.entry("wet-too-long", "h"),
          Map.entry("blind-ration", "h"),
          Map.entry("cup-away", "h"),
          Map.entry("sensor-dead", "h"),
          Map.entry("feed-old", "d"),
          Map.entry("weigh-drained", "d"),
          Map.entry("scale-silent", "min"),
          Map.entry("scale-stuck", "min"),
          Map.entry("controller-silent", "min"),
          Map.entry("scale-noisy", "g"),
          Map.entry("scale-out-of-range", "g"),
          Map.entry("scale-drifting", "g/h"),
          Map.entry("dose-short", "g"),
          Map.entry("dose-over", "g"),
          Map.entry("valve-leaking", "g"),
          Map.entry("pump-running-on", "g"),
          Map.entry("pot-on", "g a day"),
          Map.entry("tray-full", "mL"),
          Map.entry("leak", "mL"),
          Map.entry("tank-low", "mL"),
          Map.entry("cold", "°C"),
          Map.entry("frost", "°C"),
          Map.entry("heat", "°C"),
          Map.entry("salts-high", "mS/cm"),
          Map.entry("clock", "s"));

  /** Told in parts of one, and read more easily in percent. */
  private static final Map<String, String> PARTS =
      Map.of(
          "near-dry", "of its usable water gone",
          "rot-suspected", "of the use expected",
          "look-at-roots", "of the use expected");

  private Found() {}

  /** As "49 h, limit 48 h"; empty where it is so or not so, and a number says nothing. */
  public static Optional<String> words(AlertNotice alert) {
    String code = alert.code();
    boolean count = Together.CODES.contains(code) || code.equals("dose-short");
    if (alert.cup() == null && count) {
      return alert.value() > 0.0
          ? Optional.of(String.format(Locale.ROOT, "in %.0f cups", alert.value()))
          : Optional.empty();
    }
    String part = PARTS.get(code);
    if (part != null) {
      String found = number(100.0 * alert.value(), "%") + " " + part;
      return Optional.of(found + ", limit " + number(100.0 * alert.threshold(), "%"));
    }
    // A leak is so or not so, until water is measured out to its bench.
    boolean unmeasured = code.equals("leak") && alert.threshold() == 0.0;
    String unit = unmeasured ? null : UNITS.get(code);
    return unit == null
        ? Optional.empty()
        : Optional.of(number(alert.value(), unit) + ", limit " + number(alert.threshold(), unit));
  }

  private static String number(double value, String unit) {
    String number = String.format(Locale.ROOT, "%.2f", value).replaceAll("\\.?0+$", "");
    return number + " " + unit;
  }
}
