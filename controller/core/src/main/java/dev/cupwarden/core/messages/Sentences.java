package dev.cupwarden.core.messages;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Makes words of reasons, in one place for page, journal and terminal. */
public final class Sentences {
  private Sentences() {}

  /** One sentence, without a full stop. */
  public static String of(Reason reason) {
    double value = reason.value();
    double threshold = reason.threshold();
    return switch (reason.code()) {
      case "hardware" -> hardware(reason);
      case "hold" -> say("on hold for another %.1f h", value);
      case "clock" -> "the clock is not trusted";
      case "away" ->
          reason.unit().equals("min")
              ? say("back on the bench for %.0f of %.0f quiet minutes", value, threshold)
              : "off the bench";
      case "untrusted" -> doubt(reason);
      case "frost" -> say("frost: %.1f °C, the limit is %.1f °C", value, threshold);
      case "too-wet" ->
          say(
              "a pass would take it past its wet line (depletion %.2f, line %.2f)",
              value, threshold);
      case "wet-too-long" -> say("wet for %.0f h, the limit is %.0f h", value, threshold);
      case "no-dry-back" ->
          say("dried back by %.2f since its last refill, of %.2f needed", value, threshold);
      case "day-volume" -> say("%.0f mL in 24 h, of %.0f mL at most", value, threshold);
      case "cold" -> say("cold roots: %.1f °C, the limit is %.1f °C", value, threshold);
      case "window" -> say("outside the watering window, which opens in %.1f h", value / 60.0);
      case "pass" -> say("%.1f mL wanted, %.1f mL allowed in one pass", value, threshold);
      case "soak" -> say("soaking for %.0f of %.0f min", value, threshold);
      case "stage" -> "its roots cannot take feed yet";
      case "dry-roots" -> say("plain water first: depletion %.2f is past %.2f", value, threshold);
      case "ledger" -> say("fed %.2f of %.2f of the label within its interval", value, threshold);
      case "salt" -> say("salts at %.2f mS/cm, the limit is %.2f mS/cm", value, threshold);
      case "dark-season" -> "no feed in the dark season";
      default -> say("%s: %.2f against %.2f %s", reason.code(), value, threshold, reason.unit());
    };
  }

  /** Several reasons in one line. */
  public static String joined(List<Reason> reasons) {
    return reasons.stream()
        .map(reason -> reason.code() + " (" + of(reason) + ")")
        .collect(Collectors.joining("; "));
  }

  private static String hardware(Reason reason) {
    return switch (reason.unit()) {
      case "leak" -> "water where none belongs";
      case "mL" -> say("%.0f mL left in the tanks that suit", reason.value());
      case "leak-unread" -> "the leak sensor cannot be read";
      case "leak-drying" ->
          say(
              "after a leak the sensor is dry for %.1f of %.0f h",
              reason.value(), reason.threshold());
      case "leak-unexplained" ->
          say("after a leak %.0f mL are missing: a person clears it", reason.value());
      case "leak-again" -> "wet again under a rescue: a person clears it";
      case "leak-rescue" -> "after a leak only cups past their dry line get water";
      case "leak-watch" ->
          say(
              "the leak sensor is watched for %.0f of %.0f min after the last pass",
              reason.value(), reason.threshold());
      case "leak-room" ->
          say("%.0f mL given after a leak, of %.0f mL at most", reason.value(), reason.threshold());
      case "cups-swapped" -> "it seems to have changed places with another cup";
      default -> "stopped by " + reason.unit() + " until a person clears it";
    };
  }

  private static String doubt(Reason reason) {
    double value = reason.value();
    double threshold = reason.threshold();
    return switch (reason.unit()) {
      case "never-read" -> "its scale was never read";
      case "scale-silent" -> say("no reading for %.0f min, %.0f at most", value, threshold);
      case "scale-out-of-range" ->
          say("its scale shows %.1f g, outside what it can weigh (%.1f g)", value, threshold);
      case "scale-stuck" -> say("its scale has not moved for %.0f min", value);
      case "scale-noisy" -> say("its scale jumps by %.1f g, %.1f at most", value, threshold);
      case "settling" -> say("quiet for %.0f of %.0f min", value, threshold);
      default -> "its weight is in doubt: " + reason.unit();
    };
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
