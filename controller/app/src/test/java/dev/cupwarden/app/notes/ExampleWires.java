package dev.cupwarden.app.notes;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.BoardWiring.Gpio;
import dev.cupwarden.core.setup.Cup;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Every wire of the bench that comes with the program, out of its bench file: as tables for whoever
 * solders it, and as a drawing of the header and of the bus.
 */
final class ExampleWires {
  private static final Pattern ONE_WIRE_PIN = Pattern.compile("w1-gpio,gpiopin=(\\d+)");

  private final Bench bench = BackRoom.bench();
  private final BoardWiring board = bench.board().orElseThrow();

  /** What hangs on each line of the processor beside the bus, by the line. */
  SortedMap<Integer, String> lines() {
    SortedMap<Integer, String> lines = new TreeMap<>();
    lines.put(board.pump().gpio(), "pump");
    lines.put(board.more().heartbeat().orElseThrow(), "heartbeat");
    lines.put(board.more().leak().orElseThrow(), "leak sensors");
    board
        .more()
        .gauges()
        .forEach((tank, gauge) -> lines.put(((FloatSwitch) gauge).gpio(), "float " + tank));
    board
        .valves()
        .forEach((name, valve) -> lines.put(((Gpio) valve.output()).line(), "valve " + name));
    ONE_WIRE_PIN
        .matcher(BackRoom.text())
        .results()
        .forEach(pin -> lines.put(Integer.parseInt(pin.group(1)), "root thermometer"));
    return lines;
  }

  /** Where a line's wire ends: the stage, and what is behind it. */
  private String end(String part) {
    if (part.equals("pump")) {
      return "gate of Q1, the pump's first switch";
    }
    if (part.equals("heartbeat")) {
      return "trigger input of the pump-run timer, whose output is the gate of Q2";
    }
    if (part.equals("leak sensors")) {
      return "output of the leak stage, open collector; 10 kOhm to 3.3 V";
    }
    if (part.equals("root thermometer")) {
      return "DQ of the DS18B20; 4.7 kOhm to 3.3 V";
    }
    if (part.startsWith("float ")) {
      return "float switch, its other end to ground; 10 kOhm to 3.3 V";
    }
    String name = part.substring("valve ".length());
    return "gate of the stage of " + part + ", " + behind(name);
  }

  private String behind(String valve) {
    return board
        .valves()
        .get(valve)
        .tank()
        .map(tank -> "out of the tank " + tank)
        .orElseGet(() -> "to cup " + cupOf(cup -> cup.wiring().valve().equals(opt(valve))));
  }

  private static Optional<String> opt(String name) {
    return Optional.of(name);
  }

  private String cupOf(Predicate<Cup> is) {
    return bench.cups().values().stream().filter(is).map(Cup::name).findFirst().orElseThrow();
  }

  /** Scales in the order of their places. */
  private List<Map.Entry<String, BoardWiring.Scale>> scales() {
    return board.scales().entrySet().stream()
        .sorted(
            Comparator.comparing(
                    (Map.Entry<String, BoardWiring.Scale> scale) -> mux(scale.getValue()).address())
                .thenComparing(scale -> mux(scale.getValue()).channel()))
        .toList();
  }

  private static BusPlace place(BoardWiring.Scale scale) {
    return (BusPlace) scale.place();
  }

  private static BoardWiring.MuxChannel mux(BoardWiring.Scale scale) {
    return place(scale).behind().orElseThrow();
  }

  private String cupOn(String scale) {
    return cupOf(cup -> cup.wiring().scale().equals(opt(scale)));
  }

  /** Addresses on the main bus. */
  List<String> trunk() {
    TreeSet<Integer> muxes =
        board.scales().values().stream()
            .map(scale -> mux(scale).address())
            .collect(Collectors.toCollection(TreeSet::new));
    List<String> trunk = new ArrayList<>();
    muxes.forEach(mux -> trunk.add("TCA9548A " + hex(mux)));
    board.air().ifPresent(air -> trunk.add("SHT3x " + hex(air.place().address())));
    return trunk;
  }

  /** Every address of the bench, as it is written. */
  Set<String> addresses() {
    TreeSet<String> all = new TreeSet<>();
    trunk().forEach(chip -> all.add(chip.substring(chip.indexOf("0x"))));
    board.scales().values().forEach(scale -> all.add(hex(place(scale).address())));
    return all;
  }

  static String hex(int address) {
    return "0x%02X".formatted(address);
  }

  /** The page. */
  String page() {
    StringBuilder out =
        new StringBuilder(
            """
            # Every wire of the example

            Made from `controller/app/src/main/resources/dev/cupwarden/app/back-room.yaml`; a test holds page and drawing against it, and
            `-Dwires.write=true` with `ExampleWiresTest` writes both anew. What each stage is made of stands under [circuits](circuits.md);
            pins are those of the 40-pin header ([S9](sources.md); hold them against your board's own drawing).

            ![Header and bus of the example](wires.svg)

            ## Lines of the processor

            An input is pulled up and closed to ground by its part. A gate has 220 Ohm in series and 100 kOhm to ground.

            | pin | GPIO | part | to |
            |---|---|---|---|
            """);
    lines()
        .forEach(
            (gpio, part) ->
                out.append(
                    "| %d | %d | %s | %s |%n"
                        .formatted(HeaderPins.OF_GPIO.get(gpio), gpio, part, end(part))));
    out.append(
        """
        | 1 | 3.3 V | supply of sensors | multiplexers, converters, SHT3x, DS18B20, leak stage, timer |
        | 9 | ground | the sensors' ground | the same parts; meets the 12 V ground at the supply alone |
        | 2 | 5 V | supply of the board | output of the 12 V to 5 V converter, behind its own fuse |

        ## The bus

        """);
    out.append("| from | to |\n|---|---|\n");
    String all = String.join(", ", trunk());
    out.append("| pin 3 (GPIO 2, SDA) | SDA of %s |%n".formatted(all));
    out.append("| pin 5 (GPIO 3, SCL) | SCL of %s |%n".formatted(all));
    for (var scale : scales()) {
      BoardWiring.MuxChannel mux = mux(scale.getValue());
      out.append(
          "| %1$s SD%2$d, SC%2$d | SDA, SCL of the NAU7802 of %3$s, %4$s |%n"
              .formatted(
                  hex(mux.address()),
                  mux.channel(),
                  scale.getKey(),
                  hex(place(scale.getValue()).address())));
    }
    out.append(
        """

        Address pins of the multiplexers: all low is 0x70; A0 high is 0x71. Each channel in use has its own two pull-ups.

        ## Cells

        Four wires each. A cell whose counts fall as it is loaded has A+ and A- exchanged; its calibration says so (`counts_per_g` below 0).

        | scale | cup | E+ to | E- to | A+ to | A- to |
        |---|---|---|---|---|---|
        """);
    for (var scale : scales()) {
      boolean turned = scale.getValue().countsPerG() < 0;
      out.append(
          "| %s | %s | AVDD | AVSS | %s | %s |%n"
              .formatted(
                  scale.getKey(),
                  cupOn(scale.getKey()),
                  turned ? "VIN1N" : "VIN1P",
                  turned ? "VIN1P" : "VIN1N"));
    }
    out.append(
        """

        ## Power at 12 V

        | part | its + from | its - to |
        |---|---|---|
        | converter to 5 V | F1, 3 A | ground at the supply |
        | pump | F2, 1 A slow | drain of Q1; source of Q1 to drain of Q2; source of Q2 to ground |
        """);
    board.valves().keySet().stream()
        .sorted(Comparator.comparing(ExampleWires::inOrder))
        .forEach(
            valve ->
                out.append(
                    "| valve %s, %s | F3, 2 A | drain of its stage |%n"
                        .formatted(valve, behind(valve))));
    return out.toString();
  }

  private static String inOrder(String name) {
    return name.matches("v\\d+") ? "v%03d".formatted(Integer.parseInt(name.substring(1))) : name;
  }

  /** The drawing: 360 wide, so that a telephone shows it as it is. */
  String drawing() {
    StringBuilder out =
        new StringBuilder(
            """
            <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 360 820" role="img" aria-labelledby="t d" font-family="sans-serif" font-size="12">
              <title id="t">Header and bus of the example bench</title>
              <desc id="d">The 40 pins of the header with what hangs on each, and below them the bus with its multiplexers and the scale and cup behind each channel. The tables beside it say the same.</desc>
              <style>
                rect, path { fill: none; stroke: #333 } text { fill: #111 } .used { fill: #d7e7f2 } .free { fill: #fff }
              </style>
              <rect x="0" y="0" width="360" height="820" style="fill:#fff;stroke:none"/>
            """);
    for (int pin = 1; pin <= HeaderPins.PINS; pin++) {
      boolean left = pin % 2 == 1;
      int y = 10 + (pin - 1) / 2 * 22;
      String label = label(pin);
      out.append(
          "  <rect class=\"%s\" x=\"%d\" y=\"%d\" width=\"24\" height=\"18\"/>%n"
              .formatted(label.isEmpty() ? "free" : "used", left ? 170 : 196, y));
      text(out, left ? 182 : 208, y + 14, "middle", String.valueOf(pin));
      if (!label.isEmpty()) {
        text(out, left ? 165 : 225, y + 14, left ? "end" : "start", label);
      }
    }
    int y = 480;
    text(out, 10, y, "start", "Main bus: pins 3 and 5, behind them " + trunk().size() + " chips");
    for (String chip : trunk()) {
      y += 20;
      text(out, 24, y, "start", chip);
      out.append("  <path d=\"M14 %d H22\"/>%n".formatted(y - 4));
    }
    y += 24;
    text(out, 10, y, "start", "Channels: scale (all at " + scaleAddress() + "), cup");
    for (var scale : scales()) {
      y += 20;
      BoardWiring.MuxChannel mux = mux(scale.getValue());
      text(out, 24, y, "start", "%s channel %d".formatted(hex(mux.address()), mux.channel()));
      out.append("  <path d=\"M130 %d H160\"/>%n".formatted(y - 4));
      text(out, 166, y, "start", scale.getKey());
      out.append("  <path d=\"M200 %d H230\"/>%n".formatted(y - 4));
      text(out, 236, y, "start", cupOn(scale.getKey()));
    }
    return out.append("</svg>\n").toString();
  }

  private String scaleAddress() {
    return board.scales().values().stream()
        .map(scale -> hex(place(scale).address()))
        .distinct()
        .collect(Collectors.joining(", "));
  }

  private String label(int pin) {
    if (HeaderPins.GROUND.contains(pin)) {
      return pin == 9 ? "ground" : "";
    }
    if (pin == 1) {
      return "3.3 V of the sensors";
    }
    if (pin == 2) {
      return "5 V of the board";
    }
    for (var wired : HeaderPins.OF_GPIO.entrySet()) {
      if (wired.getValue() == pin) {
        int gpio = wired.getKey();
        String part = gpio == 2 ? "SDA" : gpio == 3 ? "SCL" : lines().get(gpio);
        return part == null ? "" : "GPIO %d %s".formatted(gpio, part);
      }
    }
    return "";
  }

  private static void text(StringBuilder out, int x, int y, String anchor, String words) {
    out.append(
        "  <text x=\"%d\" y=\"%d\" text-anchor=\"%s\">%s</text>%n".formatted(x, y, anchor, words));
  }
}
