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
      case "day-volume" -> volume(reason);
      case "cold" -> say("cold roots: %.1f °C, the limit is %.1f °C", value, threshold);
      case "window" -> say("outside the watering window, which opens in %.1f h", value / 60.0);
      case "hose" -> hose(reason);
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

  /** Of a drained weight that did not come; {@code read}: whether the cup was read meanwhile. */
  public static String stillDripping(boolean read) {
    return "still dripping: say it again (it was not "
        + (read ? "at rest" : "weighed")
        + " within 30 min)";
  }

  /** Of a weight that no drained cup of this kind can have. */
  public static String noDrainedWeight(String cup, double foundG, double leastG) {
    return say(
        "cup: drained, \"%s\" cannot weigh less than %.1f g in its vessel and mix, but weighs %.1f g",
        cup, leastG, foundG);
  }

  /** Of a drained weight that a person must be sure of. */
  public static String farOff(String cup, Receipt.Capacity told, double farG) {
    return say(
        "\"%s\" weighs %.1f g, but %.1f g was believed at capacity (%s): more than %.1f g apart;"
            + " look at it, then weigh it again or say it with sure: true",
        cup, told.weighedG(), told.believedG(), teacher(told.by()), farG);
  }

  /** Of a drained weight that was learned. */
  public static String learned(String cup, Receipt.Capacity told) {
    return say(
        "learned: \"%s\" weighs %.1f g at capacity; %.1f g was believed before (%s)",
        cup, told.weighedG(), told.believedG(), teacher(told.by()));
  }

  /** Of a drained weight that was taken back. */
  public static String capacityAgain(String cup, double capacityG, String by) {
    return say(
        "\"%s\" is believed to weigh %.1f g at capacity again (%s)", cup, capacityG, teacher(by));
  }

  /** Of water by hand that was taken back. */
  public static String notWatered(String cup, double ml, double strength) {
    return say("%.1f mL at strength %.2f no longer count as given to \"%s\"", ml, strength, cup);
  }

  /**
   * Of a filling that was taken back.
   *
   * @param leftMl infinite where it is not known
   * @param feed null for plain water
   * @param drawnMl since it was told: those passes stay counted as what was told
   */
  public static String tankAgain(
      String tank, double leftMl, String feed, double strength, double drawnMl) {
    String what = feed == null ? "plain water" : say("%s at strength %.2f", feed, strength);
    String much = Double.isInfinite(leftMl) ? "nobody knows how much" : say("%.0f mL of", leftMl);
    String again = say("the tank \"%s\" is believed to hold %s %s again", tank, much, what);
    return drawnMl > 0.0
        ? again + say("; %.0f mL drawn since stay counted as what was told of them", drawnMl)
        : again;
  }

  private static String teacher(String by) {
    return switch (by) {
      case "weighing" -> "weighed";
      case "plateau" -> "learned from a plateau";
      default -> "predicted";
    };
  }

  private static String hardware(Reason reason) {
    return switch (reason.detail()) {
      case "leak" -> "water where none belongs";
      case "tank-empty" -> say("%.0f mL left in the tanks that suit it", reason.value());
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
      default -> "stopped by " + reason.detail() + " until a person clears it";
    };
  }

  private static String volume(Reason reason) {
    double value = reason.value();
    double threshold = reason.threshold();
    return switch (reason.unit()) {
      case "mL since full" ->
          say(
              "%.0f mL since it was last full, of %.0f mL at most: a fifth more than it lost since",
              value, threshold);
      case "mL of half its room" ->
          say(
              "%.0f mL of %.0f mL, half of its room, which a rescue or a person has once in 24 h",
              value, threshold);
      default ->
          say(
              "%.0f mL in 24 h, of %.0f mL at most: a fifth more than it had room for or lost",
              value, threshold);
    };
  }

  private static String hose(Reason reason) {
    return reason.unit().equals("min")
        ? say(
            "cups that get plain water come first: waits for %.0f of %.0f min",
            reason.value(), reason.threshold())
        : say(
            "the hose still carries %.0f mg/L N, %.0f at most", reason.value(), reason.threshold());
  }

  private static String doubt(Reason reason) {
    double value = reason.value();
    double threshold = reason.threshold();
    return switch (reason.detail()) {
      case "never-read" -> "its scale was never read";
      case "scale-silent" -> say("no reading for %.0f min, %.0f at most", value, threshold);
      case "scale-out-of-range" ->
          say("its scale shows %.1f g, outside what it can weigh (%.1f g)", value, threshold);
      case "scale-stuck" -> say("its scale has not moved for %.0f min", value);
      case "scale-noisy" -> say("its scale jumps by %.1f g, %.1f at most", value, threshold);
      case "scale-drifting" ->
          say("its scale seems to drift: it falls by %.1f g/h, %.1f expected", value, threshold);
      case "cups-swapped" -> "what stands on its scale is another cup";
      case "settling" -> say("quiet for %.0f of %.0f min", value, threshold);
      default -> "its weight is in doubt: " + reason.detail();
    };
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
