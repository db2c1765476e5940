package dev.cupwarden.core.setup;

import java.time.Duration;

/**
 * How water is given.
 *
 * @param window when
 * @param passMl the largest single pass, 5 to 100 mL
 * @param soak the least time between two passes to one cup, 1 min to 6 h
 */
public record WateringRules(Window window, double passMl, Duration soak) {
  /**
   * One US fluid ounce at a time, with time to soak in, in the light half of the day: common
   * practice.
   */
  public static final WateringRules USUAL =
      new WateringRules(
          new Window.Hours(java.time.LocalTime.of(8, 0), java.time.LocalTime.of(16, 0)),
          30.0,
          Duration.ofMinutes(12));
}
