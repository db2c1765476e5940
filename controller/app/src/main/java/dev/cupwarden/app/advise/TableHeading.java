package dev.cupwarden.app.advise;

import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What stands over a column: a word, and the unit of what is below it, such as {@code A1 (kg)}.
 *
 * @param word without the unit
 * @param unit of weights, where it is told
 */
record TableHeading(String word, Optional<MassUnit> unit) {
  private static final Pattern WITH_UNIT =
      Pattern.compile("(?i)(.+?)(?:\\s*[(\\[]\\s*(\\w+)\\s*[)\\]]|[,\\s]\\s*(\\w+))");

  private static final Set<String> TIMES =
      Set.of(
          "at",
          "date",
          "time",
          "day",
          "when",
          "timestamp",
          "datetime",
          "date/time",
          "datum",
          "tag",
          "zeit",
          "zeitpunkt",
          "datum/zeit",
          "fecha",
          "data",
          "jour");

  private static final Set<String> HOURS =
      Set.of("time", "hour", "zeit", "uhrzeit", "hora", "heure", "ora", "tijd", "tid");

  private static final Set<String> NOTES =
      Set.of(
          "note",
          "notes",
          "comment",
          "comments",
          "remark",
          "remarks",
          "notiz",
          "notizen",
          "bemerkung",
          "bemerkungen",
          "nota",
          "notas",
          "remarque",
          "remarques",
          "opmerking",
          "opmerkingen",
          "anteckning");

  private static final Set<String> CUPS =
      Set.of("cup", "cups", "pot", "becher", "topf", "vaso", "gobelet", "beker");

  private static final Set<String> WEIGHTS =
      Set.of("weight", "mass", "gewicht", "masse", "peso", "poids", "vikt");

  static TableHeading of(String cell) {
    Matcher matcher = WITH_UNIT.matcher(cell);
    if (matcher.matches()) {
      String unit = matcher.group(2) == null ? matcher.group(3) : matcher.group(2);
      Optional<MassUnit> known = MassUnit.of(unit);
      if (known.isPresent()) {
        return new TableHeading(matcher.group(1), known);
      }
    }
    return new TableHeading(cell, Optional.empty());
  }

  boolean isTime() {
    return TIMES.contains(lower());
  }

  /** The hours beside a column of days. */
  boolean isHour() {
    return HOURS.contains(lower());
  }

  boolean isNote() {
    return NOTES.contains(lower());
  }

  /** Which cup a row is of, in a table with a row for each weighing. */
  boolean isCup() {
    return CUPS.contains(lower());
  }

  boolean isWeight() {
    return WEIGHTS.contains(lower());
  }

  private String lower() {
    return word.toLowerCase(Locale.ROOT);
  }
}
