package dev.cupwarden.board;

import com.pi4j.context.Context;
import com.pi4j.io.i2c.I2C;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.core.setup.BoardWiring.MuxChannel;
import java.util.HashMap;
import java.util.Map;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * One I2C bus with the switches on it: gives each chip a port that is reached through the right
 * channel. Only one switch is open at a time, as chips behind two of them may share an address. A
 * message that fails is tried again, the switch set anew, at most {@value #ATTEMPTS} times.
 */
final class I2cBus {
  private static final int ATTEMPTS = 3;

  private static final Logger LOG = LoggerFactory.getLogger(I2cBus.class);

  private final Context pi4j;
  private final int number;
  private final Map<Integer, I2C> devices = new HashMap<>();
  private final Map<Integer, Tca9548a> switches = new HashMap<>();

  I2cBus(Context pi4j, int number) {
    this.pi4j = pi4j;
    this.number = number;
  }

  /** The port of the chip at that place. */
  synchronized I2cPort at(BusPlace place) throws BoardException {
    I2C device = device(place.address());
    if (place.behind().isPresent()) {
      int address = place.behind().get().address();
      Tca9548a sw = new Tca9548a(new DirectPort(device(address)));
      switches.putIfAbsent(address, sw);
    }
    return new RoutedPort(place, new DirectPort(device));
  }

  private I2C device(int address) throws BoardException {
    I2C known = devices.get(address);
    if (known != null) {
      return known;
    }
    I2C opened =
        BoardContext.open(
            "I2C bus " + number,
            () ->
                pi4j.create(
                    I2C.newConfigBuilder(pi4j)
                        .id("i2c-%d-%02x".formatted(number, address))
                        .bus(number)
                        .device(address)
                        .build()));
    devices.put(address, opened);
    return opened;
  }

  /** Gives the devices back to Pi4J. */
  synchronized void close() {
    devices.values().forEach(device -> pi4j.shutdown(device.id()));
    devices.clear();
  }

  private void route(BusPlace place) throws ChipException {
    if (place.behind().isEmpty()) {
      return; // no trunk chip's address stands behind a switch: the bus map refuses that
    }
    MuxChannel wanted = place.behind().get();
    for (Map.Entry<Integer, Tca9548a> entry : switches.entrySet()) {
      if (entry.getKey() != wanted.address()) {
        shutOrWithoutSupply(entry.getValue());
      }
    }
    switches.get(wanted.address()).open(wanted.channel());
  }

  /**
   * Shuts a switch that is in the way. One that does not answer to {@value #ATTEMPTS} calls is
   * without supply, and then isolates its channels by itself (data sheet): the cups on the other
   * switches are still read.
   */
  private static void shutOrWithoutSupply(Tca9548a inTheWay) {
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      try {
        inTheWay.shut();
        return;
      } catch (ChipException e) {
        LOG.debug("A switch does not shut", e);
      }
    }
  }

  /** A message to one chip. */
  private interface Message<T> {
    T send() throws ChipException;
  }

  private synchronized <T> T send(BusPlace place, Message<T> message) throws ChipException {
    ChipException last = null;
    for (int attempt = 0; attempt < ATTEMPTS; attempt++) {
      try {
        route(place);
        return message.send();
      } catch (ChipException e) {
        last = e;
        switches.values().forEach(Tca9548a::forget);
      }
    }
    throw last;
  }

  private final class RoutedPort implements I2cPort {
    private final BusPlace place;
    private final I2cPort direct;

    RoutedPort(BusPlace place, I2cPort direct) {
      this.place = place;
      this.direct = direct;
    }

    @Override
    public void write(int... bytes) throws ChipException {
      send(
          place,
          () -> {
            direct.write(bytes);
            return null;
          });
    }

    @Override
    public byte[] read(int count) throws ChipException {
      return send(place, () -> direct.read(count));
    }

    @Override
    public byte[] readFrom(int register, int count) throws ChipException {
      return send(place, () -> direct.readFrom(register, count));
    }
  }
}
