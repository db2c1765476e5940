package dev.cupwarden.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalOutput;
import dev.cupwarden.core.setup.BoardWiring.BusPlace;
import dev.cupwarden.simulator.VirtualTime;
import dev.cupwarden.simulator.chips.ChipFault;
import dev.cupwarden.simulator.chips.SimulatedAds1115;
import dev.cupwarden.simulator.chips.SimulatedHx711;
import dev.cupwarden.simulator.chips.SimulatedI2cBus;
import dev.cupwarden.simulator.chips.SimulatedI2cBus.Place;
import dev.cupwarden.simulator.chips.SimulatedI2cProvider;
import dev.cupwarden.simulator.chips.SimulatedInputProvider;
import dev.cupwarden.simulator.chips.SimulatedOutputProvider;
import dev.cupwarden.simulator.chips.SimulatedPcf8574;
import java.time.Duration;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Two-wire converter, probe converter, port expander and water switch on their simulated chips. */
class MoreChipsTest {
  private static final int CLOCK = 23;
  private static final int DATA = 24;
  private static final int LEAK = 25;

  private final VirtualTime time = new VirtualTime(TestBench.START);
  private final Pace pace = TestBench.pace(time);
  private final double[] ratio = {0.0005};
  private final double[] volts = {0, 1.25, 3.2, 5.0};
  private final int[] expander = {0xFF};
  private final Set<Integer> wet = new HashSet<>();
  private final SimulatedHx711 twoWire = new SimulatedHx711(time::nanos, () -> ratio[0]);
  private final SimulatedPcf8574 ports = new SimulatedPcf8574(levels -> expander[0] = levels);
  private final SimulatedI2cBus wires = new SimulatedI2cBus();
  private long holdUpNanos;
  private int clocks;

  private final Context pi4j =
      BoardContext.with(
          new SimulatedI2cProvider(Map.of(1, wires)),
          new SimulatedOutputProvider(this::drive),
          new SimulatedInputProvider(gpio -> gpio == DATA ? twoWire.data() : !wet.contains(gpio)));

  @AfterEach
  void shutDown() {
    pi4j.shutdown();
  }

  /** The clock's line; the tenth pulse is held up as long as the test says. */
  private void drive(int gpio, boolean high) {
    if (gpio == CLOCK) {
      if (!high && clocks == 10 && holdUpNanos > 0) {
        time.advanceTo(time.nanos() + holdUpNanos);
        holdUpNanos = 0;
      }
      clocks += high ? 1 : 0;
      twoWire.clock(high);
    }
  }

  private Hx711 converter() throws ChipException {
    DigitalOutput clock =
        pi4j.create(DigitalOutput.newConfigBuilder(pi4j).id("clock").address(CLOCK).build());
    DigitalInput data =
        pi4j.create(DigitalInput.newConfigBuilder(pi4j).id("data").address(DATA).build());
    Hx711 chip = new Hx711(clock, data, pace);
    chip.begin();
    assertFalse(chip.settled());
    pace.pause(Duration.ofMillis(401));
    assertTrue(chip.settled());
    assertTrue(chip.ready());
    return chip;
  }

  /** 0.5 mV/V at gain 128: 0.0005 · 128 · 2²⁴ = 1,073,742 counts. */
  @Test
  void theTwoWireConverterIsClockedBitByBit() throws ChipException {
    Hx711 chip = converter();
    assertEquals(1_073_742, chip.counts());
    assertFalse(chip.ready(), "the 25th pulse ends the conversion");
    ratio[0] = -0.0005;
    pace.pause(Duration.ofMillis(101));
    assertEquals(-1_073_742, chip.counts());
    ratio[0] = 1;
    pace.pause(Duration.ofMillis(101));
    assertTrue(assertThrows(ChipException.class, chip::counts).getMessage().contains("upper end"));
  }

  @Test
  void aClockHeldUpIsFoundAndTheConversionAskedForAgain() throws ChipException {
    Hx711 chip = converter();
    clocks = 0;
    holdUpNanos = 80_000;
    long before = time.nanos();
    assertEquals(1_073_742, chip.counts());
    assertTrue(time.nanos() - before >= Duration.ofMillis(400).toNanos(), "it had powered down");
  }

  private I2cPort port(int address) throws BoardException {
    return new I2cBus(pi4j, 1).at(new BusPlace(address, Optional.empty()));
  }

  @Test
  void probesAreReadInVolts() throws Exception {
    wires.plug(Place.trunk(0x48), new SimulatedAds1115(time::nanos, input -> volts[input]));
    Ads1115 chip = new Ads1115(port(0x48), pace);
    assertEquals(0, chip.volts(0), 62.5e-6);
    assertEquals(1.25, chip.volts(1), 62.5e-6);
    assertEquals(3.2, chip.volts(2), 62.5e-6);
    assertTrue(
        assertThrows(ChipException.class, () -> chip.volts(3)).getMessage().contains("0x7fff"));
    wires.breakChip(Place.trunk(0x48), ChipFault.ZEROES);
    assertThrows(ChipException.class, () -> chip.volts(1));
    wires.breakChip(Place.trunk(0x48), ChipFault.ONES);
    assertThrows(ChipException.class, () -> chip.volts(1));
    wires.breakChip(Place.trunk(0x48), ChipFault.SILENT);
    assertThrows(ChipException.class, () -> chip.volts(1));
  }

  /** 7FFFh and 8000h are the ends; 125 µV a step at ±4.096 V; 3.3 V is 6720h (data sheet). */
  @Test
  void probeCodes() throws ChipException {
    assertEquals(3.3, Ads1115.decode(0x6720), 1e-9);
    assertEquals(-125e-6, Ads1115.decode(-1), 1e-12);
    assertThrows(ChipException.class, () -> Ads1115.decode(0x7FFF));
    assertThrows(ChipException.class, () -> Ads1115.decode(-0x8000));
    assertThrows(ChipException.class, () -> Ads1115.decode(0x7000), "3.584 V of a 3.3 V supply");
  }

  @Test
  void anExpandersLinesAreLowWhenOnAndReadBack() throws Exception {
    wires.plug(Place.trunk(0x20), ports);
    Pcf8574 chip = new Pcf8574(port(0x20));
    OutputLine v1 = chip.line("valve V1", 0);
    OutputLine v2 = chip.line("valve V2", 5);
    v1.on();
    v2.on();
    assertEquals(0b1101_1110, expander[0]);
    v1.off();
    assertEquals(0b1101_1111, expander[0]);
    ports.losePower();
    assertEquals(0xFF, expander[0], "a brown-out shuts the valves");
    ports.holdLow(1);
    assertTrue(assertThrows(ChipException.class, v1::off).getMessage().contains("valve V1"));
    v2.off();
  }

  @Test
  void waterClosesTheLeakSensor() throws Exception {
    WaterSwitch leak = WaterSwitch.open(pi4j, "the leak sensor", LEAK);
    assertFalse(leak.closed());
    wet.add(LEAK);
    assertTrue(leak.closed());
  }
}
