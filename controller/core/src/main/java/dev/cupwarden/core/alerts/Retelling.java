package dev.cupwarden.core.alerts;

import java.time.Duration;
import java.util.Map;

/**
 * How often an alert that stands is told again, in one table. All intervals are our choice: a mail
 * missed on one evening is followed by one on the next, and nobody is told by the minute.
 *
 * @param acts whether a person must act on it: what only asks for a look is told once
 * @param every from one telling to the next
 * @param everyWhileSevere likewise while its severity is above 0
 * @param puttingOff whether a person may put it off
 */
record Retelling(boolean acts, Duration every, Duration everyWhileSevere, boolean puttingOff) {
  private static final Duration DAILY = Duration.ofHours(24);
  private static final Duration HOURLY = Duration.ofHours(1);
  private static final Retelling USUAL = new Retelling(true, DAILY, DAILY, true);
  private static final Retelling ONCE = new Retelling(false, DAILY, DAILY, true);
  private static final Retelling NOT_PUT_OFF = new Retelling(true, DAILY, DAILY, false);

  /** Those that differ from what is usual. */
  private static final Map<String, Retelling> TABLE =
      Map.of(
          "leak", new Retelling(true, DAILY, HOURLY, false),
          "pump-running-on", NOT_PUT_OFF,
          "frost", NOT_PUT_OFF,
          "dose-over", ONCE,
          "look-at-roots", ONCE,
          "pot-on", ONCE,
          "mould-weather", ONCE,
          "rot-weather", ONCE);

  static Retelling of(String code) {
    return TABLE.getOrDefault(code, USUAL);
  }

  /** From one telling to the next at that severity. */
  Duration every(int severity) {
    return severity > 0 ? everyWhileSevere : every;
  }
}
