package dev.cupwarden.board;

import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.ClockedLines;
import dev.cupwarden.core.setup.BoardWiring.ExpanderPin;
import dev.cupwarden.core.setup.BoardWiring.FloatSwitch;
import dev.cupwarden.core.setup.BoardWiring.Gpio;
import dev.cupwarden.core.setup.BoardWiring.MuxChannel;
import dev.cupwarden.core.setup.BoardWiring.OutputPlace;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * Where every chip and line of a bench is. Made before anything is opened: two parts in one place,
 * or a part where it cannot be, refuse to start.
 */
final class BusMap {
  /**
   * @param whole whether one part has the chip for itself
   */
  private record Chip(String name, String part, BusPlace place, boolean whole) {}

  private final int bus;
  private final List<Chip> chips = new ArrayList<>();
  private final Map<Integer, String> lines = new TreeMap<>();
  private final Map<String, String> chipLines = new TreeMap<>();
  private final Map<String, String> oneWire = new TreeMap<>();

  private BusMap(int bus) {
    this.bus = bus;
  }

  /**
   * The map of that wiring.
   *
   * @throws BoardException with one sentence that names both parts and the place
   */
  static BusMap of(BoardWiring wiring) throws BoardException {
    BusMap map = new BusMap(wiring.i2cBus());
    map.line("the pump", wiring.pump().gpio());
    for (var scale : new TreeMap<>(wiring.scales()).entrySet()) {
      map.converter("scale " + scale.getKey(), scale.getValue());
    }
    if (wiring.air().isPresent()) {
      map.chip("the air sensor", wiring.air().get().chip(), wiring.air().get().place());
    }
    for (var valve : new TreeMap<>(wiring.valves()).entrySet()) {
      map.output("valve " + valve.getKey(), valve.getValue().output());
    }
    map.more(wiring.more());
    return map;
  }

  private void converter(String name, BoardWiring.Scale scale) throws BoardException {
    if (scale.place() instanceof BusPlace place) {
      chip(name, scale.chip(), place);
    } else if (scale.place() instanceof ClockedLines lines) {
      if (!scale.chip().equals("hx711")) {
        throw new BoardException(
            "%s: a %s is not clocked over two lines.".formatted(sentenceCase(name), scale.chip()));
      }
      line(name + ", clock of its hx711", lines.clockGpio());
      line(name + ", data of its hx711", lines.dataGpio());
    }
  }

  private void output(String name, OutputPlace output) throws BoardException {
    if (output instanceof Gpio gpio) {
      line(name + (gpio.activeLow() ? " (low is on)" : ""), gpio.line());
    } else if (output instanceof ExpanderPin pin) {
      shared(name, "pcf8574", pin.expander(), "pin " + pin.pin());
    }
  }

  private void more(BoardWiring.More more) throws BoardException {
    for (var probe : new TreeMap<>(more.probes()).entrySet()) {
      BoardWiring.Probe wired = probe.getValue();
      shared("probe " + probe.getKey(), wired.chip(), wired.place(), "input " + wired.input());
    }
    if (more.leak().isPresent()) {
      line("the leak sensor", more.leak().get());
    }
    if (more.heartbeat().isPresent()) {
      line("the pump-run timer's heartbeat", more.heartbeat().get());
    }
    for (var gauge : new TreeMap<>(more.gauges()).entrySet()) {
      if (gauge.getValue() instanceof FloatSwitch contact) {
        line("the float of tank " + gauge.getKey(), contact.gpio());
      }
    }
    more.root().ifPresent(root -> oneWire.put(root.id(), root.chip()));
    more.outdoor().ifPresent(outdoor -> oneWire.put(outdoor.id(), outdoor.chip()));
  }

  /** One line of a chip that several parts share. */
  private void shared(String name, String part, BusPlace place, String at) throws BoardException {
    Optional<Chip> known =
        chips.stream()
            .filter(chip -> chip.place.equals(place) && chip.part.equals(part) && !chip.whole)
            .findFirst();
    if (known.isEmpty()) {
      chip("the " + part + " at " + describe(place), part, place);
      Chip added = chips.remove(chips.size() - 1);
      known = Optional.of(new Chip(added.name, part, place, false));
      chips.add(known.get());
    }
    String other = chipLines.putIfAbsent(known.get().name + " " + at, name);
    if (other != null) {
      throw new BoardException(
          "%s and %s both hang on %s of %s."
              .formatted(sentenceCase(other), name, at, known.get().name));
    }
  }

  private void chip(String name, String part, BusPlace place) throws BoardException {
    PartNumber number =
        PartNumber.of(part)
            .orElseThrow(
                () ->
                    new BoardException(
                        "%s: \"%s\" is not a chip this board has a driver for; known: %s."
                            .formatted(sentenceCase(name), part, PartNumber.known())));
    if (!number.addresses().contains(place.address())) {
      throw new BoardException(
          "%s: a %s cannot be at address 0x%02x; it can be at %s."
              .formatted(sentenceCase(name), part, place.address(), hex(number.addresses())));
    }
    if (place.behind().isPresent()) {
      checkSwitch(name, place.behind().get());
    }
    Chip added = new Chip(name, part, place, true);
    for (Chip other : chips) {
      if (clash(place, other.place)) {
        throw new BoardException(
            "%s and %s both answer at address %s."
                .formatted(sentenceCase(other.name), name, describe(place)));
      }
    }
    chips.add(added);
  }

  private static void checkSwitch(String name, MuxChannel behind) throws BoardException {
    if (!PartNumber.SWITCH_ADDRESSES.contains(behind.address())) {
      throw new BoardException(
          "%s: a switch cannot be at address 0x%02x; it can be at %s."
              .formatted(sentenceCase(name), behind.address(), hex(PartNumber.SWITCH_ADDRESSES)));
    }
    if (behind.channel() < 0 || behind.channel() > 7) {
      throw new BoardException(
          "%s: a switch has no channel %d; it has 0 to 7."
              .formatted(sentenceCase(name), behind.channel()));
    }
  }

  /**
   * A chip on the trunk answers whatever the switches do; behind two channels there is no clash.
   */
  private static boolean clash(BusPlace one, BusPlace other) {
    return one.address() == other.address()
        && (one.behind().isEmpty()
            || other.behind().isEmpty()
            || one.behind().equals(other.behind()));
  }

  private void line(String name, int gpio) throws BoardException {
    String other = lines.putIfAbsent(gpio, name);
    if (other != null) {
      throw new BoardException(
          "%s and %s both hang on GPIO %d.".formatted(sentenceCase(other), name, gpio));
    }
  }

  /** One line a part: place, part number, name. */
  String print() {
    StringBuilder out = new StringBuilder();
    chips.stream()
        .flatMap(chip -> chip.place.behind().stream())
        .map(MuxChannel::address)
        .distinct()
        .sorted()
        .forEach(
            address ->
                out.append("i2c %d 0x%02x            tca9548a   switch%n".formatted(bus, address)));
    for (Chip chip : chips) {
      String behind =
          chip.place
              .behind()
              .map(mux -> "0x%02x ch %d > ".formatted(mux.address(), mux.channel()))
              .orElse("            ");
      out.append(
          "i2c %d %s0x%02x %-10s %s%n"
              .formatted(bus, behind, chip.place.address(), chip.part, chip.name));
    }
    chipLines.forEach((line, name) -> out.append("%s: %s%n".formatted(line, name)));
    oneWire.forEach(
        (id, part) -> out.append("w1 %s  %-10s the root thermometer%n".formatted(id, part)));
    lines.forEach((gpio, name) -> out.append("gpio %-3d               %s%n".formatted(gpio, name)));
    return out.toString();
  }

  private static String describe(BusPlace place) {
    return "0x%02x%s"
        .formatted(
            place.address(),
            place
                .behind()
                .map(
                    mux ->
                        " behind channel %d of the switch at 0x%02x"
                            .formatted(mux.channel(), mux.address()))
                .orElse(""));
  }

  private static String hex(Set<Integer> addresses) {
    return String.join(
        ", ", addresses.stream().sorted().map(address -> "0x%02x".formatted(address)).toList());
  }

  private static String sentenceCase(String name) {
    return Character.toUpperCase(name.charAt(0)) + name.substring(1);
  }
}
