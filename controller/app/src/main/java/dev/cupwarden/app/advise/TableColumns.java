package dev.cupwarden.app.advise;

import dev.cupwarden.core.messages.AmbientReading;
import dev.cupwarden.core.messages.LineRefused;
import dev.cupwarden.core.setup.Names;
import dev.cupwarden.core.units.Quoted;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * The columns of a table by its header. The first is the time, a second one may have its hours.
 * Then come {@code air_c}, {@code rh_pct}, {@code root_c}, {@code outdoor_c}, {@code light}, a
 * cup's name for its gross weight, {@code theta:} with a cup's name, {@code tank:} with a tank's,
 * and notes. {@code cup:} may stand before a cup's name, and must where the name is also that of
 * another column. Or each weighing has a row: then one column names the cup, and one has its
 * weight.
 */
final class TableColumns {
  private static final MassUnit USUAL = MassUnit.G;

  /** Puts the text of one cell where it belongs. */
  private interface Target {
    void put(TableRow row, String cell) throws LineRefused;
  }

  private final TableDialect dialect;
  private final Set<String> cups;
  private final Set<String> tanks;
  private final List<Target> targets = new ArrayList<>();
  private final Set<String> taken = new HashSet<>();
  private boolean hours;
  private boolean namesCups;
  private boolean hasWeights;

  private TableColumns(TableDialect dialect, Set<String> cups, Set<String> tanks) {
    this.dialect = dialect;
    this.cups = cups;
    this.tanks = tanks;
  }

  static TableColumns of(
      TableDialect dialect, List<String> header, Set<String> cups, Set<String> tanks)
      throws LineRefused {
    TableColumns columns = new TableColumns(dialect, cups, tanks);
    for (String cell : header) {
      columns.add(cell);
    }
    if (columns.namesCups != columns.hasWeights) {
      throw new LineRefused(
          columns.namesCups
              ? "has no column of weights: expected one, such as weight (g)"
              : "has weights and does not say of which cup: expected a column cup, or a column for"
                  + " each cup");
    }
    return columns;
  }

  private void add(String cell) throws LineRefused {
    String place = "column %d %s".formatted(targets.size() + 1, Quoted.text(cell));
    TableHeading heading = TableHeading.of(cell);
    if (targets.isEmpty() && !heading.isTime()) {
      throw new LineRefused(place + ": expected the time first, named at or Date");
    }
    Target target = targets.isEmpty() ? (row, text) -> {} : target(heading, place);
    if (!taken.add(isOwn(heading.word()) ? heading.word() : "cup:" + heading.word())) {
      throw new LineRefused(place + " is given twice");
    }
    targets.add(target);
  }

  /** Whether a name says by itself what is in its column; other names are cups. */
  private static boolean isOwn(String name) {
    return name.contains(":") || AmbientReading.of(name).isPresent();
  }

  private Target target(TableHeading heading, String place) throws LineRefused {
    String name = heading.word();
    if (cups.contains(name) && !isOwn(name)) {
      return weightOf(name, heading);
    }
    Optional<AmbientReading> ambient = AmbientReading.of(name);
    if (ambient.isPresent()) {
      return (row, cell) -> row.draft().ambient(ambient.get(), dialect.number(name, cell));
    }
    if (targets.size() == 1 && heading.isHour()) {
      hours = true;
      return (row, cell) -> {};
    }
    if (heading.isNote()) {
      return TableRow::note;
    }
    return heading.isCup() || heading.isWeight() ? ofAWeighing(heading) : ofAPart(heading, place);
  }

  private Target ofAWeighing(TableHeading heading) {
    if (heading.isCup()) {
      namesCups = true;
      return TableRow::cup;
    }
    hasWeights = true;
    MassUnit unit = heading.unit().orElse(USUAL);
    return (row, cell) -> row.weight(unit.gramsOf(dialect.number(heading.word(), cell)));
  }

  private Target weightOf(String cup, TableHeading heading) {
    MassUnit unit = heading.unit().orElse(USUAL);
    return (row, cell) -> row.draft().massG(cup, unit.gramsOf(dialect.number(cup, cell)));
  }

  private Target ofAPart(TableHeading heading, String place) throws LineRefused {
    String name = heading.word();
    int colon = name.indexOf(':');
    String part = name.substring(colon + 1);
    return switch (colon < 0 ? "cup" : name.substring(0, colon)) {
      case "cup" -> {
        requireKnown(place, part, cups, "a cup of this bench, nor one of the other columns");
        yield weightOf(part, heading);
      }
      case "theta" -> {
        requireKnown(place, part, cups, "a cup of this bench");
        yield (row, cell) -> row.draft().theta(part, dialect.number(name, cell));
      }
      case "tank" -> {
        requireKnown(place, part, tanks, "a tank of this bench");
        yield (row, cell) -> row.draft().tankMl(part, dialect.number(name, cell));
      }
      default -> throw new LineRefused(place + ": expected cup:, theta: or tank: before a name");
    };
  }

  /** Refuses a name that the bench does not have; {@code place} begins the sentence. */
  static void requireKnown(String place, String part, Set<String> known, String what)
      throws LineRefused {
    if (known.contains(part)) {
      return;
    }
    String meant =
        known.stream()
            .filter(each -> each.equalsIgnoreCase(part))
            .map("; did you mean %s?"::formatted)
            .findFirst()
            .orElse("; known: " + Names.list(new TreeSet<>(known)));
    throw new LineRefused("%s is not %s%s".formatted(place, what, meant));
  }

  /** Whether several rows may have one time, each for another cup. */
  boolean isOneRowAWeighing() {
    return namesCups;
  }

  /** The time of a row, as it is written. */
  String timeOf(List<String> cells) {
    return hours ? (cells.get(0) + " " + cells.get(1)).strip() : cells.get(0);
  }

  void requireWhole(List<String> cells) throws LineRefused {
    if (cells.size() != targets.size()) {
      throw new LineRefused(
          "has %d cells: expected %d, as in the header".formatted(cells.size(), targets.size()));
    }
  }

  void put(TableRow row, List<String> cells) throws LineRefused {
    for (int i = 0; i < cells.size(); i++) {
      if (!cells.get(i).isEmpty()) {
        targets.get(i).put(row, cells.get(i));
      }
    }
  }
}
