package dev.cupwarden.simulator.chips;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.cupwarden.simulator.VirtualTime;
import dev.cupwarden.simulator.chips.SimulatedChip.NotAcknowledged;
import dev.cupwarden.simulator.chips.SimulatedI2cBus.Place;
import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;

/** The simulated chips against their data sheets, without any driver. */
class ChipSheetTest {
  private final VirtualTime time = new VirtualTime(Instant.EPOCH);

  private void passMs(long ms) {
    time.advanceBy(Duration.ofMillis(ms));
  }

  /** BE EF with check 92: data sheet of the SHT3x; that word is 85.523003 °C. */
  @Test
  void airSensorSendsTheSheetsOwnExample() throws NotAcknowledged {
    SimulatedSht3x chip = new SimulatedSht3x(time::nanos, () -> 85.523003, () -> 74.584573);
    chip.write(new int[] {0x24, 0x00});
    assertThrows(NotAcknowledged.class, () -> chip.read(6), "a shot takes its time");
    passMs(16);
    assertArrayEquals(new int[] {0xBE, 0xEF, 0x92, 0xBE, 0xEF, 0x92}, chip.read(6));
    assertThrows(NotAcknowledged.class, () -> chip.read(6), "read once");
  }

  /**
   * 1 mV/V of a bridge at gain 128: 0.001 · 128 · 2²⁴ = 2,147,484 counts, 2147.48 a gram of 1 kg.
   */
  @Test
  void converterGivesTheBridgesRatioTimesItsGain() throws NotAcknowledged {
    SimulatedNau7802 chip = new SimulatedNau7802(time::nanos, rate -> 0.001);
    assertEquals(0, chip0(chip, 0x00), "asleep after power-on");
    chip.write(new int[] {0x00, 0x02});
    assertEquals(0x02, chip0(chip, 0x00));
    passMs(1);
    assertEquals(0x0A, chip0(chip, 0x00), "powered up after 200 us");
    chip.write(new int[] {0x01, 0x2F});
    chip.write(new int[] {0x00, 0x96});
    passMs(99);
    assertEquals(0, chip0(chip, 0x00) & 0x20, "ten a second");
    passMs(2);
    assertEquals(0x20, chip0(chip, 0x00) & 0x20);
    assertEquals(2_147_484, code(chip), 1);
    assertEquals(0, chip0(chip, 0x00) & 0x20, "read");
    chip.write(new int[] {0x01, 0x28});
    passMs(100);
    assertEquals(2_147_484 / 128.0, code(chip), 1, "gain 1");
  }

  @Test
  void converterStopsAtItsEndsAndForgetsAllWithoutSupply() throws NotAcknowledged {
    double[] ratio = {0.5};
    SimulatedNau7802 chip = new SimulatedNau7802(time::nanos, rate -> ratio[0]);
    chip.write(new int[] {0x01, 0x2F});
    chip.write(new int[] {0x00, 0x96});
    passMs(101);
    assertEquals(0x7FFFFF, code(chip));
    ratio[0] = -0.5;
    passMs(101);
    assertEquals(0x800000, code(chip));
    chip.losePower();
    assertEquals(0, chip0(chip, 0x00));
    assertEquals(0, chip0(chip, 0x01));
  }

  private static int chip0(SimulatedChip chip, int register) throws NotAcknowledged {
    chip.write(new int[] {register});
    return chip.read(1)[0];
  }

  private static int code(SimulatedChip chip) throws NotAcknowledged {
    chip.write(new int[] {0x12});
    int[] bytes = chip.read(3);
    return bytes[0] << 16 | bytes[1] << 8 | bytes[2];
  }

  @Test
  void aChipBehindASwitchAnswersOnlyThroughItsChannel() throws IOException {
    SimulatedI2cBus bus = new SimulatedI2cBus();
    bus.plug(Place.trunk(0x70), new SimulatedTca9548a());
    bus.plug(Place.behind(0x70, 0, 0x2A), new SimulatedNau7802(time::nanos, rate -> 0));
    bus.plug(Place.behind(0x70, 1, 0x2A), new SimulatedNau7802(time::nanos, rate -> 0));
    assertThrows(IOException.class, () -> bus.write(0x2A, new int[] {0x01, 0x11}));
    bus.write(0x70, new int[] {0x01});
    bus.write(0x2A, new int[] {0x01, 0x35});
    bus.write(0x70, new int[] {0x02});
    bus.write(0x2A, new int[] {0x01, 0x1E});
    assertArrayEquals(new int[] {0x1E}, bus.writeRead(0x2A, new int[] {0x01}, 1));
    bus.write(0x70, new int[] {0x03});
    assertArrayEquals(
        new int[] {0x35 & 0x1E},
        bus.writeRead(0x2A, new int[] {0x01}, 1),
        "two at once pull the line low together");
    assertThrows(
        IllegalArgumentException.class,
        () -> bus.plug(Place.behind(0x70, 1, 0x2A), new SimulatedTca9548a()));
    assertThrows(
        IllegalArgumentException.class,
        () -> bus.plug(Place.behind(0x71, 1, 0x2A), new SimulatedTca9548a()));
  }
}
