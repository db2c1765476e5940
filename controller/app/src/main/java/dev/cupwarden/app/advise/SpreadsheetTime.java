package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.ObservationDraft;
import dev.cupwarden.core.units.Quoted;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A time as a table has it: RFC 3339, or a date with or without an hour on the grower's own clock,
 * as spreadsheets write it. Of an hour that comes twice in autumn the first is meant.
 *
 * @param zone of times that are written without one
 * @param order of day and month between slashes, if it is known
 * @param hour of a day that is written without one
 */
record SpreadsheetTime(ZoneId zone, Optional<DateOrder> order, LocalTime hour) {
  private static final Pattern WITH_ZONE =
      Pattern.compile(".*[0-9][Tt ].*([Zz]|[+-][0-9]{2}:[0-9]{2})");
  private static final Pattern LOCAL =
      Pattern.compile(
          "(?<date>[0-9]{1,4}(?<mark>[-/.])[0-9]{1,2}\\k<mark>[0-9]{1,4})\\.?"
              + "(?:[ T,]+(?<hour>[0-9]{1,2})[:.](?<minute>[0-9]{2})(?::(?<second>[0-9]{2}))?"
              + "(?:\\.0+)?(?: ?(?<half>[AaPp])\\.?[Mm]\\.?)?)?");
  private static final int HOURS_OF_HALF = 12;
  private static final int CENTURY = 2000;
  private static final int MONTHS = 12;

  /** Whether a time says its own zone. */
  static boolean hasZone(String cell) {
    return WITH_ZONE.matcher(cell).matches();
  }

  /** What is taken for granted in a time that does not say it all. */
  Optional<String> takenForGranted(String cell) {
    Matcher local = LOCAL.matcher(cell);
    if (hasZone(cell) || !local.matches()) {
      return Optional.empty();
    }
    return Optional.of(
        local.group("hour") == null
            ? "A day without an hour means %s by the clocks of %s.".formatted(hour, zone)
            : "Times without a zone are by the clocks of %s.".formatted(zone));
  }

  void put(ObservationDraft draft, String cell) throws LineRefused {
    Matcher local = LOCAL.matcher(cell);
    if (hasZone(cell) || !local.matches()) {
      requireTime(cell);
      draft.at(cell);
      return;
    }
    LocalDateTime time = timeOf(local, cell);
    if (zone.getRules().getValidOffsets(time).isEmpty()) {
      throw new LineRefused(
          "at: %s is skipped by the clocks of %s".formatted(Quoted.text(cell), zone));
    }
    draft.at(time.atZone(zone).withEarlierOffsetAtOverlap().toInstant());
  }

  private static void requireTime(String cell) throws LineRefused {
    if (!hasZone(cell)) {
      throw new LineRefused(
          "at: %s is not a time: expected one such as 2027-02-14 08:00 or 2027-02-14T08:00:00Z"
              .formatted(Quoted.text(cell)));
    }
  }

  private LocalDateTime timeOf(Matcher local, String cell) throws LineRefused {
    try {
      return LocalDateTime.of(dateOf(local, cell), hourOf(local));
    } catch (DateTimeException noSuchTime) {
      throw new LineRefused("at: " + Quoted.text(cell) + " is a time that does not exist");
    }
  }

  private LocalTime hourOf(Matcher local) {
    if (local.group("hour") == null) {
      return hour;
    }
    int written = Integer.parseInt(local.group("hour"));
    String half = local.group("half");
    int second = local.group("second") == null ? 0 : Integer.parseInt(local.group("second"));
    return LocalTime.of(
        half == null ? written : ofHalf(written, half),
        Integer.parseInt(local.group("minute")),
        second);
  }

  /** Twelve begins each half of the day. */
  private static int ofHalf(int written, String half) {
    if (written < 1 || written > HOURS_OF_HALF) {
      throw new DateTimeException("no hour of half a day: " + written);
    }
    return written % HOURS_OF_HALF + (half.equalsIgnoreCase("p") ? HOURS_OF_HALF : 0);
  }

  private LocalDate dateOf(Matcher local, String cell) throws LineRefused {
    String mark = local.group("mark");
    String[] parts = local.group("date").split(Pattern.quote(mark));
    int first = Integer.parseInt(parts[0]);
    int second = Integer.parseInt(parts[1]);
    int third = Integer.parseInt(parts[2]);
    if (parts[0].length() > 2) {
      return LocalDate.of(first, second, third);
    }
    int year = parts[2].length() > 2 ? third : CENTURY + third;
    boolean dayFirst = !mark.equals("/") || isDayFirst(first, second, cell);
    return dayFirst ? LocalDate.of(year, second, first) : LocalDate.of(year, first, second);
  }

  private boolean isDayFirst(int first, int second, String cell) throws LineRefused {
    if (order.isPresent()) {
      return order.get() == DateOrder.DAY_FIRST;
    }
    if (first > MONTHS || second > MONTHS || first == second) {
      return first > MONTHS;
    }
    throw new LineRefused(
        ("at: %s may be day or month first: say --dates day-first or --dates month-first, or name"
                + " the bench's place")
            .formatted(Quoted.text(cell)));
  }
}
