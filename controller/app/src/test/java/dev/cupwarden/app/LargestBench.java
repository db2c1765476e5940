package dev.cupwarden.app;

import dev.cupwarden.core.setup.Bench;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The largest bench that a file may describe: every cup with every key that its board has places
 * for, names as long as they may be, and a long note above each. Probes are four to a converter;
 * there are 64 places behind multiplexers for scales, which all answer at one address.
 */
final class LargestBench {
  private static final int SCALES = 64;
  private static final int LONGEST_NAME = 32;
  private static final int LONGEST_TEXT = 64;

  private LargestBench() {}

  static String text() {
    return text(Bench.MOST_CUPS);
  }

  /** With so many cups, which may be too many. */
  static String text(int cups) {
    String example = BackRoom.text();
    StringBuilder text =
        new StringBuilder(
            example
                .substring(0, example.indexOf("\nboard:"))
                .replace("from: \"08:00\", to: \"16:00\"", "from: \"00:00\", to: \"23:59\"")
                .replace("  coir-perlite:", "  " + longest("coir") + ":")
                .replace("  tall:", "  " + longest("tall") + ":"));
    text.append("\nboard:\n  bus: 1\n  air: {chip: sht3x, address: 0x44}\n")
        .append("  root: {chip: ds18b20, id: 28-0316a2795aff}\n")
        .append("  pump: {gpio: 17, rate: 1.5 mL/s}\n  leak: {gpio: 23}\n  scales:\n");
    for (int i = 0; i < Math.min(SCALES, cups); i++) {
      text.append(
          "    %s: {chip: nau7802, address: 0x2A, %s, counts_per_g: 1050.2000001, zero: 84213}\n"
              .formatted(name("s", i), behind(i)));
    }
    text.append("  probes:\n");
    for (int i = 0; i < cups; i++) {
      text.append(
          ("    %s: {chip: ads1115, address: 0x%02X, %s, input: %d, points: [{volts: 1.1, theta: 0.9},"
                  + " {volts: 2.0, theta: 0.4}, {volts: 2.9, theta: 0.05}]}\n")
              .formatted(name("p", i), 0x48 + i / 4 % 4, behind(i / 16), i % 4));
    }
    text.append(
        "  valves:\n    plain: {gpio: 10, tank: plain}\n    feed: {gpio: 11, tank: feed}\n");
    for (int i = 0; i < cups; i++) {
      text.append(
          "    %s: {expander: 0x%02X, %s, pin: %d}\n"
              .formatted(name("v", i), 0x20 + i / 8 % 8, behind(SCALES - 1 - i / 64), i % 8));
    }
    text.append("cups:\n");
    for (int i = 0; i < cups; i++) {
      text.append("  # ").append("note ".repeat(80)).append('\n');
      text.append(
          ("  %s: {vessel: %s, mix: %s, plant: %s, struck: 2026-10-24, stage: toughened, cutting:"
                  + " 14.25 g, lines: {due: 0.45, refill: 0.05, dry: 0.75}, %svalve: %s, probe: %s}\n")
              .formatted(
                  name("C", i),
                  longest("tall"),
                  longest("coir"),
                  longest("vine"),
                  i < SCALES ? "scale: " + name("s", i) + ", " : "",
                  name("v", i),
                  name("p", i)));
    }
    return text.toString();
  }

  static List<String> cups() {
    return new ArrayList<>(
        IntStream.range(0, Bench.MOST_CUPS).mapToObj(i -> name("C", i)).toList());
  }

  private static String name(String part, int i) {
    String stem = "%s%03d.".formatted(part, i);
    return stem + "x".repeat(LONGEST_NAME - stem.length());
  }

  private static String longest(String word) {
    return word + "-" + "y".repeat(LONGEST_TEXT - word.length() - 1);
  }

  private static String behind(int place) {
    return "mux: 0x%02X, channel: %d".formatted(0x70 + place / 8, place % 8);
  }
}
