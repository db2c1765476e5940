package dev.cupwarden.app.advise;

import java.time.ZoneId;
import java.util.Optional;
import java.util.Set;

/** Which of the two comes first in a date between slashes, such as 2/3/2027. */
public enum DateOrder {
  DAY_FIRST,
  MONTH_FIRST;

  private static final Set<String> UNITED_STATES =
      Set.of(
          "America/New_York",
          "America/Detroit",
          "America/Chicago",
          "America/Menominee",
          "America/Denver",
          "America/Boise",
          "America/Phoenix",
          "America/Los_Angeles",
          "America/Anchorage",
          "America/Juneau",
          "America/Sitka",
          "America/Nome",
          "America/Adak",
          "Pacific/Honolulu");

  private static final Set<String> PREFIXES_OF_THE_UNITED_STATES =
      Set.of("US/", "America/Indiana/", "America/Kentucky/", "America/North_Dakota/");

  private static final Set<String> REGIONS_WITH_DAYS_FIRST =
      Set.of("Europe/", "Africa/", "Australia/");

  /**
   * How people write dates where these clocks are. Empty where both are usual: in Canada, Asia and
   * much of the rest a guess would be a month out.
   */
  static Optional<DateOrder> usualAt(ZoneId zone) {
    String name = zone.getId();
    if (UNITED_STATES.contains(name)
        || PREFIXES_OF_THE_UNITED_STATES.stream().anyMatch(name::startsWith)) {
      return Optional.of(MONTH_FIRST);
    }
    boolean daysFirst =
        name.equals("Pacific/Auckland")
            || REGIONS_WITH_DAYS_FIRST.stream().anyMatch(name::startsWith);
    return daysFirst ? Optional.of(DAY_FIRST) : Optional.empty();
  }
}
