package dev.cupwarden.core.messages;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A sentence with places for values, in the notation of {@link String#format}: {@code %1$.2f},
 * {@code %1$s}, {@code %1$d} and {@code %%}. It is read once, since a tick of two hundred cups says
 * hundreds of sentences. Numbers have a decimal point in every language, and nothing is never less
 * than nothing: {@code 0.0}, not {@code -0.0}.
 */
final class SentencePattern {
  private static final Pattern PLACE =
      Pattern.compile("%(?:(?<percent>%)|(?<value>[1-9])\\$(?:\\.(?<decimals>[0-9])f|[sd]))");

  /** As text. */
  private static final int NOT_ROUNDED = -1;

  /**
   * A place for a value.
   *
   * @param before text in front of it
   * @param value which, from 0
   * @param decimals after the point, or {@link #NOT_ROUNDED}
   */
  private record Place(String before, int value, int decimals) {
    void say(Object[] values, StringBuilder to) {
      if (value >= values.length) {
        throw new IllegalArgumentException("a sentence wants " + (value + 1) + " values");
      }
      to.append(before);
      if (decimals == NOT_ROUNDED) {
        to.append(values[value]);
      } else {
        to.append(rounded(((Number) values[value]).doubleValue(), decimals));
      }
    }
  }

  private final List<Place> places;
  private final String end;

  private SentencePattern(List<Place> places, String end) {
    this.places = places;
    this.end = end;
  }

  /**
   * Reads one.
   *
   * @throws IllegalArgumentException where a percent sign begins none of the places above
   */
  static SentencePattern of(String text) {
    List<Place> places = new ArrayList<>();
    StringBuilder before = new StringBuilder();
    Matcher found = PLACE.matcher(text);
    int from = 0;
    while (found.find()) {
      before.append(plain(text, from, found.start()));
      if (found.group("percent") != null) {
        before.append('%');
      } else {
        String decimals = found.group("decimals");
        places.add(
            new Place(
                before.toString(),
                Integer.parseInt(found.group("value")) - 1,
                decimals == null ? NOT_ROUNDED : Integer.parseInt(decimals)));
        before.setLength(0);
      }
      from = found.end();
    }
    before.append(plain(text, from, text.length()));
    return new SentencePattern(List.copyOf(places), before.toString());
  }

  private static String plain(String text, int from, int to) {
    String part = text.substring(from, to);
    if (part.indexOf('%') >= 0) {
      throw new IllegalArgumentException("no place for a value: %, in \"" + text + "\"");
    }
    return part;
  }

  /**
   * The sentence.
   *
   * @param values by their number; more than it has places for do no harm
   */
  String with(Object... values) {
    if (places.isEmpty()) {
      return end;
    }
    StringBuilder sentence = new StringBuilder();
    for (Place place : places) {
      place.say(values, sentence);
    }
    return sentence.append(end).toString();
  }

  /** Half away from zero, of the shortest decimal that tells the number, as the library does. */
  private static String rounded(double value, int decimals) {
    return Double.isFinite(value)
        ? BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString()
        : Double.toString(value);
  }
}
