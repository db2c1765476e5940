package dev.cupwarden.board;

import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.MuxChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/**
 * Where every chip and line of a bench is. Made before anything is opened: two parts in one place,
 * or a part where it cannot be, refuse to start.
 */
final class BusMap {
  private record Chip(String name, String part, BusPlace place) {}

  private final int bus;
  private final List<Chip> chips = new ArrayList<>();
  private final Map<Integer, String> lines = new TreeMap<>();

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
    for (var scale : new TreeMap<>(wiring.scales()).entrySet()) {
      map.chip("scale " + scale.getKey(), scale.getValue().chip(), scale.getValue().place());
    }
    if (wiring.air().isPresent()) {
      map.chip("the air sensor", wiring.air().get().chip(), wiring.air().get().place());
    }
    map.line("the pump", wiring.pump().gpio());
    for (var valve : new TreeMap<>(wiring.valves()).entrySet()) {
      map.line("valve " + valve.getKey(), valve.getValue().gpio());
    }
    return map;
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
    Chip added = new Chip(name, part, place);
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
