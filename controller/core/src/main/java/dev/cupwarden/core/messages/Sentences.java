package dev.cupwarden.core.messages;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Window;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Makes words of reasons and receipts, in one place for page, journal and terminal. */
public final class Sentences {
  private Sentences() {}

  /** One sentence, without a full stop. */
  public static String of(Reason reason) {
    String key = "limit." + reason.code();
    String detailed = key + "." + reason.detail();
    double inHours = reason.value() / 60.0;
    if (Catalogue.has(detailed)) {
      return said(detailed, reason, inHours);
    }
    return Catalogue.has(key)
        ? said(key, reason, inHours)
        : say(
            "%s: %.2f against %.2f %s",
            reason.code(), reason.value(), reason.threshold(), reason.unit());
  }

  private static String said(String key, Reason reason, double inHours) {
    return Catalogue.say(key, reason.value(), reason.threshold(), reason.detail(), inHours);
  }

  /** Several reasons in one line. */
  public static String joined(List<Reason> reasons) {
    return reasons.stream()
        .map(reason -> reason.code() + " (" + of(reason) + ")")
        .collect(Collectors.joining("; "));
  }

  /** Of a flush that would run over. */
  public static String trayHasNoRoom(double throughMl, double heldMl, double trayMl) {
    return say(
        "%.0f mL would run through, and the tray holds %.0f of %.0f mL: empty it and clear it for the"
            + " whole bench first, or flush with less",
        throughMl, heldMl, trayMl);
  }

  /**
   * Of a bench file without a place, once at the start; empty where it names one.
   *
   * @param daily whether a person weighs once a day, so that there is no window
   */
  public static Optional<String> withoutPlace(Bench bench, boolean daily) {
    if (bench.place().isPresent() || !(bench.watering().window() instanceof Window.Hours hours)) {
      return Optional.empty();
    }
    String rule =
        daily
            ? "with --daily there is no window"
            : "the watering window is %s to %s of that".formatted(hours.from(), hours.to());
    return Optional.of(
        "The bench file names no place: times are read as UTC, and "
            + rule
            + ". For your own clock add place: {latitude: 54.9, longitude: -1.6, zone:"
            + " Europe/London}.");
  }

  /** Of an order that needs a vessel out of which water can run. */
  public static String noHoles(String cup, String kind) {
    return "cup: the vessel of %s has no holes (holes: none), so it cannot %s"
        .formatted(cup, kind.equals("flush") ? "be flushed" : "drain");
  }

  /** Of a drained weight that did not come; {@code read}: whether the cup was read meanwhile. */
  public static String stillDripping(boolean read) {
    return "still dripping: say it again (it was not "
        + (read ? "at rest" : "weighed")
        + " within 30 min)";
  }

  /** Of an order that came too late. */
  public static String expired(String expires) {
    return "stale: it expired at " + expires;
  }

  /** Of an order to the pump of a bench that is only watched. */
  public static String watchOnly() {
    return "the bench is only watched, and nothing is pumped";
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

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
