package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.messages.ObservationDraft;
import dev.cupwarden.core.units.Quoted;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.format.ResolverStyle;
import java.util.regex.Pattern;

/**
 * The cell {@code at}: RFC 3339, or the time on the grower's own clock, such as {@code 2027-02-14
 * 08:00}. Of an hour that comes twice in autumn the first is meant.
 */
final class SpreadsheetTime {
  private static final Pattern LOCAL =
      Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}[ T][0-9]{2}:[0-9]{2}(:[0-9]{2})?");
  private static final DateTimeFormatter FORMAT =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm[:ss]").withResolverStyle(ResolverStyle.STRICT);

  private SpreadsheetTime() {}

  static void put(ObservationDraft draft, String cell, ZoneId zone) throws LineRefused {
    if (!LOCAL.matcher(cell).matches()) {
      draft.at(cell);
      return;
    }
    LocalDateTime local = parse(cell);
    if (zone.getRules().getValidOffsets(local).isEmpty()) {
      throw new LineRefused(
          "at: %s is skipped by the clocks of %s".formatted(Quoted.text(cell), zone));
    }
    draft.at(local.atZone(zone).withEarlierOffsetAtOverlap().toInstant());
  }

  private static LocalDateTime parse(String cell) throws LineRefused {
    try {
      return LocalDateTime.parse(cell.replace('T', ' '), FORMAT);
    } catch (DateTimeException noSuchTime) {
      throw new LineRefused("at: " + Quoted.text(cell) + " is a time that does not exist");
    }
  }
}
