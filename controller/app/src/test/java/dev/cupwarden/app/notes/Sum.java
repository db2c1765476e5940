package dev.cupwarden.app.notes;

import static java.util.Map.entry;

import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One sum of a page, such as {@code 3.0 V / 350 Ohm = 8.6 mA}: values with units, {@code + - * /}
 * and brackets, and a result as many digits exact as it is written with. A unit of two parts has no
 * space about its stroke ({@code mL/s}).
 */
final class Sum {
  /** Metre, kilogram, second, ampere. */
  private static final int DIMENSIONS = 4;

  /** A value in SI units, and of what. */
  private record Value(double si, int[] of) {
    Value times(Value other, int power) {
      int[] sum = new int[DIMENSIONS];
      Arrays.setAll(sum, i -> of[i] + power * other.of[i]);
      return new Value(power > 0 ? si * other.si : si / other.si, sum);
    }

    Value plus(Value other, int sign) {
      if (!Arrays.equals(of, other.of)) {
        throw new IllegalArgumentException("adds what is not of one kind");
      }
      return new Value(si + sign * other.si, of);
    }
  }

  private static Value unit(double si, int... of) {
    return new Value(si, of);
  }

  private static final Map<String, Value> UNITS =
      Map.ofEntries(
          entry("", unit(1, 0, 0, 0, 0)),
          entry("%", unit(0.01, 0, 0, 0, 0)),
          entry("m", unit(1, 1, 0, 0, 0)),
          entry("km", unit(1e3, 1, 0, 0, 0)),
          entry("mm", unit(1e-3, 1, 0, 0, 0)),
          entry("mL", unit(1e-6, 3, 0, 0, 0)),
          entry("L", unit(1e-3, 3, 0, 0, 0)),
          entry("m3", unit(1, 3, 0, 0, 0)),
          entry("g", unit(1e-3, 0, 1, 0, 0)),
          entry("mg", unit(1e-6, 0, 1, 0, 0)),
          entry("kg", unit(1, 0, 1, 0, 0)),
          entry("s", unit(1, 0, 0, 1, 0)),
          entry("ms", unit(1e-3, 0, 0, 1, 0)),
          entry("us", unit(1e-6, 0, 0, 1, 0)),
          entry("ns", unit(1e-9, 0, 0, 1, 0)),
          entry("d", unit(86_400, 0, 0, 1, 0)),
          entry("Nm", unit(1, 2, 1, -2, 0)),
          entry("N", unit(1, 1, 1, -2, 0)),
          entry("kPa", unit(1e3, -1, 1, -2, 0)),
          entry("W", unit(1, 2, 1, -3, 0)),
          entry("mW", unit(1e-3, 2, 1, -3, 0)),
          entry("A", unit(1, 0, 0, 0, 1)),
          entry("mA", unit(1e-3, 0, 0, 0, 1)),
          entry("uA", unit(1e-6, 0, 0, 0, 1)),
          entry("V", unit(1, 2, 1, -3, -1)),
          entry("mV", unit(1e-3, 2, 1, -3, -1)),
          entry("uV", unit(1e-6, 2, 1, -3, -1)),
          entry("nV", unit(1e-9, 2, 1, -3, -1)),
          entry("Ohm", unit(1, 2, 1, -3, -2)),
          entry("mOhm", unit(1e-3, 2, 1, -3, -2)),
          entry("kOhm", unit(1e3, 2, 1, -3, -2)),
          entry("MOhm", unit(1e6, 2, 1, -3, -2)),
          entry("uF", unit(1e-6, -2, -1, 4, 2)),
          entry("nF", unit(1e-9, -2, -1, 4, 2)),
          entry("pF", unit(1e-12, -2, -1, 4, 2)));

  private static final Pattern TOKEN =
      Pattern.compile(
          "\\s*(?:([-+*/()])|([0-9.]+)(?: ?([A-Za-z%][A-Za-z0-9]*(?:/[A-Za-z0-9]+)?))?)");

  private final String text;
  private final String left;
  private final String right;
  private Matcher tokens;
  private String sign;
  private String number;
  private String unit;

  private Sum(String text) {
    this.text = text;
    int equals = text.lastIndexOf('=');
    this.left = text.substring(0, equals);
    this.right = text.substring(equals + 1).strip();
  }

  /** Why the sum of that text does not hold; none where it does. */
  static Optional<String> wrong(String text) {
    Sum sum = new Sum(text);
    try {
      return sum.check();
    } catch (IllegalArgumentException e) {
      return Optional.of(text + ": " + e.getMessage());
    }
  }

  private Optional<String> check() {
    Value found = read(left);
    Value told = read(right);
    if (!Arrays.equals(found.of(), told.of())) {
      return Optional.of(text + ": the result is of another kind");
    }
    String digits = right.split(" ")[0];
    int behind = digits.contains(".") ? digits.length() - digits.indexOf('.') - 1 : 0;
    double written = Double.parseDouble(digits);
    double inItsUnit = found.si() / told.si() * written;
    double half = 0.5 * Math.pow(10, -behind) + 1e-9 * Math.abs(written);
    return Math.abs(inItsUnit - written) <= half
        ? Optional.empty()
        : Optional.of("%s: it is %.5g".formatted(text, inItsUnit));
  }

  private Value read(String expression) {
    tokens = TOKEN.matcher(expression.strip());
    next();
    Value value = sum();
    if (!sign.equals("end")) {
      throw new IllegalArgumentException("cannot be read at \"" + sign + "\"");
    }
    return value;
  }

  /** To the next token: its sign, "number", or "end". */
  private void next() {
    if (tokens.regionStart() >= tokens.regionEnd()) {
      sign = "end";
      return;
    }
    if (!tokens.lookingAt()) {
      throw new IllegalArgumentException("cannot be read");
    }
    sign = tokens.group(1) == null ? "number" : tokens.group(1);
    number = tokens.group(2);
    unit = tokens.group(3) == null ? "" : tokens.group(3);
    tokens.region(tokens.end(), tokens.regionEnd());
  }

  private Value sum() {
    Value value = product();
    while (sign.equals("+") || sign.equals("-")) {
      int plus = sign.equals("+") ? 1 : -1;
      next();
      value = value.plus(product(), plus);
    }
    return value;
  }

  private Value product() {
    Value value = factor();
    while (sign.equals("*") || sign.equals("/")) {
      int power = sign.equals("*") ? 1 : -1;
      next();
      value = value.times(factor(), power);
    }
    return value;
  }

  private Value factor() {
    if (sign.equals("(")) {
      next();
      Value value = sum();
      if (!sign.equals(")")) {
        throw new IllegalArgumentException("a bracket stays open");
      }
      next();
      return value;
    }
    if (!sign.equals("number")) {
      throw new IllegalArgumentException("a value is missing at \"" + sign + "\"");
    }
    Value value = new Value(Double.parseDouble(number), UNITS.get("").of());
    String[] parts = unit.split("/");
    value = value.times(known(parts[0]), 1);
    if (parts.length > 1) {
      value = value.times(known(parts[1]), -1);
    }
    next();
    return value;
  }

  private static Value known(String unit) {
    Value known = UNITS.get(unit);
    if (known == null) {
      throw new IllegalArgumentException("\"" + unit + "\" is no unit known here");
    }
    return known;
  }
}
