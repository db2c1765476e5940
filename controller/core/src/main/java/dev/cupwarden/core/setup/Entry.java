package dev.cupwarden.core.setup;

import dev.cupwarden.core.plants.Span;
import dev.cupwarden.core.units.Dimension;
import dev.cupwarden.core.units.Quantity;
import dev.cupwarden.core.units.QuantityException;
import dev.cupwarden.core.units.Quoted;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * One value as written, with where it stands and the path of keys that leads to it. Each reader
 * takes one kind of value and refuses all else with one sentence.
 *
 * @param file name of the file it stands in; null for a value out of an order
 * @param path keys from the top, joined by dots; empty for the whole
 */
record Entry(String file, String path, Node node) {
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?([0-9]{1,18}(\\.[0-9]{0,18})?|\\.[0-9]{1,18})([eE][-+]?[0-9]{1,3})?");
  private static final Pattern INTEGER = Pattern.compile("[-+]?[0-9]{1,9}|0x[0-9A-Fa-f]{1,7}");
  private static final Pattern SPAN =
      Pattern.compile(
          "([0-9]{1,4}(?:\\.[0-9]{1,4})?)\\.\\.([0-9]{1,4}(?:\\.[0-9]{1,4})?)(?: ?(\\D.*))?");
  private static final Pattern TIME = Pattern.compile("[0-9]{2}:[0-9]{2}");
  private static final Pattern DATE = Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}");
  private static final Pattern DAY = Pattern.compile("[0-9]{2}-[0-9]{2}");

  /** A refusal of this value: file, line, column and path in front of what is wrong. */
  SetupException refuse(String what) {
    return refuseAt(node, what);
  }

  /** A refusal that points at a node of this value's own. */
  SetupException refuseAt(Node place, String what) {
    return new SetupException(position(place) + path + (path.isEmpty() ? "" : ": ") + what);
  }

  private String position(Node place) {
    if (file == null) {
      return "";
    }
    return place
        .getStartMark()
        .map(mark -> "%s:%s ".formatted(file, lineAndColumn(mark)))
        .orElse(file + " ");
  }

  static String lineAndColumn(Mark mark) {
    return (mark.getLine() + 1) + ":" + (mark.getColumn() + 1);
  }

  /** The value that a key leads to from here. */
  Entry below(String key, Node value) {
    return new Entry(file, path.isEmpty() ? key : path + "." + key, value);
  }

  /** As a mapping of these keys and no others. */
  Section section(String... known) throws SetupException {
    return Section.of(this, List.of(known), false);
  }

  /** As a mapping of names that the grower gave. */
  Section named() throws SetupException {
    return Section.of(this, null, false);
  }

  /** As a mapping of names that may go over the wire. */
  Section safelyNamed() throws SetupException {
    return Section.of(this, null, true);
  }

  List<Entry> list() throws SetupException {
    if (!(node instanceof SequenceNode sequence)) {
      throw refuse(found() + " is not a list");
    }
    List<Entry> elements = new ArrayList<>();
    for (Node element : sequence.getValue()) {
      elements.add(new Entry(file, path + "[" + elements.size() + "]", element));
    }
    return elements;
  }

  /** Free text of 1 to 64 characters. */
  String text() throws SetupException {
    return line(64);
  }

  /** Free text of 1 to that many characters. */
  String line(int longest) throws SetupException {
    String text = scalar("text");
    Tag tag = node.getTag();
    if (Tag.BOOL.equals(tag) || Tag.FLOAT.equals(tag)) {
      throw refuse(found() + " is not text: put it in quotes if it is meant as a name");
    }
    boolean fits = !text.isBlank() && text.length() <= longest;
    if (!fits || text.chars().anyMatch(Character::isISOControl)) {
      throw refuse(
          found()
              + " is not usable as text: expected 1 to %d characters on one line"
                  .formatted(longest));
    }
    return text;
  }

  /** A name that may go over the wire. */
  String safeName() throws SetupException {
    String name = text();
    if (!Names.isSafe(name)) {
      throw refuse(found() + " cannot be a name on the wire: " + Names.RULE);
    }
    return name;
  }

  /**
   * One of the names that the bench knows.
   *
   * @param what with its article, such as "a mix of this bench"
   */
  String oneOf(String what, Collection<String> known) throws SetupException {
    String name = text();
    if (!known.contains(name)) {
      throw refuse(found() + " is not " + what + "; known: " + Names.list(known));
    }
    return name;
  }

  double number(Range range) throws SetupException {
    String text = scalar("a number");
    if (!isPlain() || !NUMBER.matcher(text).matches()) {
      throw refuse(found() + " is not a number: expected " + range.words());
    }
    return within(Double.parseDouble(text), range);
  }

  /** From one value to another, such as {@code 30..60} or {@code 18..24 C}; in base units. */
  Span span(Range range) throws SetupException {
    String text = scalar("a range such as 30..60");
    Matcher ends = SPAN.matcher(text);
    if (!ends.matches()) {
      throw refuse(
          found() + " is not a range: expected two numbers such as 30..60, each " + range.words());
    }
    double least = end(ends.group(1), ends.group(3), range);
    double most = end(ends.group(2), ends.group(3), range);
    if (least > most) {
      throw refuse(found() + " is not in rising order");
    }
    return new Span(least, most);
  }

  /** Of a range; the unit stands behind both ends. */
  private double end(String number, String unit, Range range) throws SetupException {
    if (range.unit() == null) {
      if (unit != null) {
        throw refuse(found() + " has a unit: expected two numbers such as 30..60");
      }
      return within(Double.parseDouble(number), range);
    }
    try {
      String written = unit == null ? number : number + " " + unit;
      return within(Quantity.parse(written, range.unit().dimension()).inBase(), range);
    } catch (QuantityException refused) {
      throw refuse(refused.getMessage());
    }
  }

  boolean trueOrFalse() throws SetupException {
    if (node() instanceof ScalarNode scalar && scalar.getTag().equals(Tag.BOOL)) {
      return Boolean.parseBoolean(scalar.getValue());
    }
    throw refuse(found() + " is neither true nor false");
  }

  boolean yesOrNo() throws SetupException {
    return oneOf("yes or no", List.of("yes", "no")).equals("yes");
  }

  /** In base units. A bare number is refused. */
  double quantity(Range range) throws SetupException {
    return within(measured(range.unit().dimension()).inBase(), range);
  }

  /** A quantity of a dimension, not yet held against a range. */
  Quantity measured(Dimension dimension) throws SetupException {
    String text = scalar(dimension.words() + " with its unit");
    try {
      return Quantity.parse(text, dimension);
    } catch (QuantityException refused) {
      throw refuse(refused.getMessage());
    }
  }

  Duration duration(Range range) throws SetupException {
    return Duration.ofMillis(Math.round(quantity(range) * 1000.0));
  }

  int integer(int least, int most) throws SetupException {
    String text = scalar("a whole number");
    if (!isPlain() || !INTEGER.matcher(text).matches()) {
      throw refuse(found() + " is not a whole number: expected %d to %d".formatted(least, most));
    }
    return (int) within(Integer.decode(decimal(text)), Range.of(least, most));
  }

  /** YAML 1.2 knows no octal by a leading 0; Java does. */
  private static String decimal(String text) {
    return text.startsWith("0x") ? text : text.replaceFirst("^([-+]?)0+(?=[0-9])", "$1");
  }

  LocalTime time() throws SetupException {
    return when(TIME, "a time of day such as \"08:00\", 00:00 to 23:59", LocalTime::parse);
  }

  LocalDate date() throws SetupException {
    LocalDate date = when(DATE, "a date such as 2026-11-14", LocalDate::parse);
    if (date.getYear() < 2000 || date.getYear() > 2199) {
      throw refuse(found() + " is out of range: expected a date from 2000 to 2199");
    }
    return date;
  }

  MonthDay dayOfYear() throws SetupException {
    return when(DAY, "month and day such as 12-01", text -> MonthDay.parse("--" + text));
  }

  ZoneId zone() throws SetupException {
    String text = text();
    if (!ZoneId.getAvailableZoneIds().contains(text)) {
      throw refuse(found() + " is not a time zone: expected a name such as Europe/London or UTC");
    }
    return ZoneId.of(text);
  }

  RootStage stage() throws SetupException {
    return RootStage.of(oneOf("a root stage", RootStage.words())).orElseThrow();
  }

  private interface Moment<T> {
    T parse(String text);
  }

  private <T> T when(Pattern shape, String expected, Moment<T> moment) throws SetupException {
    String text = scalar(expected);
    try {
      if (shape.matcher(text).matches()) {
        return moment.parse(text);
      }
    } catch (DateTimeException noSuchMoment) {
      throw refuse(found() + " does not exist: expected " + expected);
    }
    throw refuse(found() + " cannot be read: expected " + expected);
  }

  private double within(double value, Range range) throws SetupException {
    if (!range.holds(value)) {
      throw refuse(found() + " is out of range: expected " + range.words());
    }
    return value;
  }

  private String scalar(String expected) throws SetupException {
    if (!(node instanceof ScalarNode scalar)) {
      throw refuse(found() + " stands where " + expected + " is expected");
    }
    if (Tag.NULL.equals(node.getTag())) {
      throw refuse("is empty: expected " + expected);
    }
    return scalar.getValue();
  }

  private boolean isPlain() {
    return node instanceof ScalarNode scalar && scalar.isPlain();
  }

  /** What stands here, for a sentence. */
  String found() {
    if (node instanceof ScalarNode scalar) {
      return Tag.NULL.equals(node.getTag()) ? "nothing" : Quoted.text(scalar.getValue());
    }
    return node instanceof SequenceNode ? "a list" : "a group of keys";
  }
}
