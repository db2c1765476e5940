package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.MuxChannel;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Which place on the I2C bus is taken by whom. A chip that hangs on the bus itself answers whatever
 * channel is open, so its address is taken behind every multiplexer, too.
 */
final class BusPlaces {
  /** 7-bit addresses below 0x08 and above 0x77 are reserved (I2C-bus specification, table 4). */
  private static final int LEAST_ADDRESS = 0x08;

  private static final int MOST_ADDRESS = 0x77;

  private record Line(BusPlace place, String name) {}

  private final Map<BusPlace, String> takenBy = new LinkedHashMap<>();
  private final Map<BusPlace, String> shared = new HashMap<>();
  private final Map<Line, String> lineTakenBy = new HashMap<>();

  /** Reads {@code address}, {@code mux} and {@code channel} and takes that place. */
  BusPlace take(Section keys) throws SetupException {
    return take(keys, "address", "");
  }

  /**
   * The same for one line of a chip that several parts share.
   *
   * @param key where the address stands
   * @param chip part number of the shared chip
   * @param line name of the line in a refusal, such as "input 2"
   */
  BusPlace share(Section keys, String key, String chip, String line) throws SetupException {
    Entry address = keys.need(key, "an I2C address such as 0x20");
    BusPlace place = take(keys, key, chip);
    String other = lineTakenBy.putIfAbsent(new Line(place, line), keys.self().path());
    if (other != null) {
      throw address.refuse(
          "%s of 0x%02X%s is already that of %s"
              .formatted(line, place.address(), behind(place), other));
    }
    return place;
  }

  private BusPlace take(Section keys, String key, String sharedChip) throws SetupException {
    Entry address = keys.need(key, "an I2C address such as 0x2A");
    BusPlace place = new BusPlace(address.integer(LEAST_ADDRESS, MOST_ADDRESS), channel(keys));
    if (!sharedChip.isEmpty() && sharedChip.equals(shared.get(place))) {
      return place;
    }
    for (Map.Entry<BusPlace, String> other : takenBy.entrySet()) {
      if (clash(place, other.getKey())) {
        throw address.refuse(
            "0x%02X%s is already the place of %s"
                .formatted(place.address(), behind(place), other.getValue()));
      }
    }
    takenBy.put(place, keys.self().path());
    if (!sharedChip.isEmpty()) {
      shared.put(place, sharedChip);
    }
    return place;
  }

  private static Optional<MuxChannel> channel(Section keys) throws SetupException {
    if (keys.maybe("mux").isEmpty() && keys.maybe("channel").isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new MuxChannel(
            keys.need("mux", "the multiplexer's address, as there is a channel")
                .integer(0x70, 0x77),
            keys.need("channel", "0 to 7, as there is a mux").integer(0, 7)));
  }

  private static boolean clash(BusPlace one, BusPlace other) {
    boolean bothSeen =
        one.behind().isEmpty() || other.behind().isEmpty() || one.behind().equals(other.behind());
    return (one.address() == other.address() && bothSeen)
        || isMuxOf(one, other)
        || isMuxOf(other, one);
  }

  private static boolean isMuxOf(BusPlace chip, BusPlace behindMux) {
    return behindMux.behind().map(mux -> mux.address() == chip.address()).orElse(false);
  }

  private static String behind(BusPlace place) {
    return place
        .behind()
        .map(mux -> " behind 0x%02X channel %d".formatted(mux.address(), mux.channel()))
        .orElse("");
  }
}
