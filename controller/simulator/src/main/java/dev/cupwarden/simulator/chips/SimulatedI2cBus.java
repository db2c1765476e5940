package dev.cupwarden.simulator.chips;

import dev.cupwarden.simulator.chips.SimulatedChip.NotAcknowledged;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One I2C bus with its chips in one table of place and chip. A message reaches every chip at its
 * address that is on the trunk or behind a switched-through channel; two that answer at once pull
 * the line low together, as copper does.
 */
public final class SimulatedI2cBus {
  /** Where a chip sits. */
  public record Place(int address, Optional<Branch> behind) {
    /** On the trunk. */
    public static Place trunk(int address) {
      return new Place(address, Optional.empty());
    }

    /** Behind a channel of a switch on the trunk. */
    public static Place behind(int switchAddress, int channel, int address) {
      return new Place(address, Optional.of(new Branch(switchAddress, channel)));
    }
  }

  /** A channel, 0 to 7, of a switch. */
  public record Branch(int switchAddress, int channel) {}

  private final Map<Place, Seat> seats = new LinkedHashMap<>();

  /**
   * Puts a chip in its place.
   *
   * @throws IllegalArgumentException when the place is taken, or hangs on a switch that is not
   *     there
   */
  public synchronized void plug(Place place, SimulatedChip chip) {
    place.behind().ifPresent(this::requireSwitch);
    if (seats.containsKey(place)) {
      throw new IllegalArgumentException(
          "Two chips at one place: %s and %s at %s"
              .formatted(seats.get(place).chip.part(), chip.part(), place));
    }
    seats.put(place, new Seat(chip));
  }

  private void requireSwitch(Branch branch) {
    Seat at = seats.get(Place.trunk(branch.switchAddress()));
    if (at == null || !(at.chip instanceof SimulatedTca9548a)) {
      throw new IllegalArgumentException("No switch at 0x%02x".formatted(branch.switchAddress()));
    }
  }

  /** Breaks the chip at a place, or mends it. */
  public synchronized void breakChip(Place place, ChipFault fault) {
    seatAt(place).fault = fault;
  }

  /** Takes the supply from the chip at a place for a moment. */
  public synchronized void interruptPower(Place place) {
    seatAt(place).chip.losePower();
  }

  private Seat seatAt(Place place) {
    Seat seat = seats.get(place);
    if (seat == null) {
      throw new IllegalArgumentException("No chip at " + place);
    }
    return seat;
  }

  /** One written message. */
  synchronized void write(int address, int[] bytes) throws IOException {
    for (Seat seat : answering(address)) {
      try {
        seat.write(bytes);
      } catch (NotAcknowledged e) {
        throw noAnswer(address);
      }
    }
  }

  /** One read message. */
  synchronized int[] read(int address, int count) throws IOException {
    int[] line = new int[count];
    Arrays.fill(line, 0xFF);
    for (Seat seat : answering(address)) {
      try {
        int[] driven = seat.read(count);
        Arrays.setAll(line, i -> line[i] & driven[i]);
      } catch (NotAcknowledged e) {
        throw noAnswer(address);
      }
    }
    return line;
  }

  /** A write and a read with a repeated start between. */
  synchronized int[] writeRead(int address, int[] bytes, int count) throws IOException {
    write(address, bytes);
    return read(address, count);
  }

  private List<Seat> answering(int address) throws IOException {
    List<Seat> found = new ArrayList<>();
    for (Map.Entry<Place, Seat> entry : seats.entrySet()) {
      if (!reached(entry.getKey())) {
        continue;
      }
      Seat seat = entry.getValue();
      if (seat.fault == ChipFault.BUS_ERROR) {
        throw new IOException("Connection timed out"); // what Linux says of a held clock
      }
      if (entry.getKey().address() == address && seat.fault != ChipFault.SILENT) {
        found.add(seat);
      }
    }
    if (found.isEmpty()) {
      throw noAnswer(address);
    }
    return found;
  }

  private boolean reached(Place place) {
    if (place.behind().isEmpty()) {
      return true;
    }
    Branch branch = place.behind().get();
    Seat at = seats.get(Place.trunk(branch.switchAddress()));
    return at.fault != ChipFault.SILENT && ((SimulatedTca9548a) at.chip).through(branch.channel());
  }

  private static IOException noAnswer(int address) {
    return new IOException("Remote I/O error at 0x%02x".formatted(address));
  }

  /** A chip with what is wrong with it. */
  private static final class Seat {
    final SimulatedChip chip;
    ChipFault fault = ChipFault.NONE;
    private int[] lastRead = {};

    Seat(SimulatedChip chip) {
      this.chip = chip;
    }

    void write(int[] bytes) throws NotAcknowledged {
      if (fault == ChipFault.NONE || fault == ChipFault.GARBLED) {
        chip.write(bytes);
      }
    }

    int[] read(int count) throws NotAcknowledged {
      return switch (fault) {
        case STUCK -> Arrays.copyOf(lastRead, count);
        case ZEROES -> new int[count];
        case ONES -> filled(count);
        case GARBLED -> garbled(chip.read(count));
        default -> {
          lastRead = chip.read(count);
          yield lastRead;
        }
      };
    }

    private static int[] filled(int count) {
      int[] ones = new int[count];
      Arrays.fill(ones, 0xFF);
      return ones;
    }

    private static int[] garbled(int[] bytes) {
      return Arrays.stream(bytes).map(b -> b ^ 0x24).toArray();
    }
  }
}
