package dev.cupwarden.core.setup;

import java.util.Map;
import java.util.Optional;

/**
 * What is soldered to what.
 *
 * @param i2cBus number of the I2C bus
 * @param scales weight converters by name
 * @param air the air's temperature and humidity sensor, if there is one
 * @param pump the dosing pump
 * @param valves by name; each a normally closed valve
 */
public record BoardWiring(
    int i2cBus,
    Map<String, Scale> scales,
    Optional<AirSensor> air,
    Pump pump,
    Map<String, Valve> valves) {

  /** Where on a bus a chip answers: its own address, behind a multiplexer's channel or not. */
  public record BusPlace(int address, Optional<MuxChannel> behind) {}

  /** A channel (0 to 7) of an eight-way I2C multiplexer at an address. */
  public record MuxChannel(int address, int channel) {}

  /**
   * A weight converter with its calibration.
   *
   * @param chip part number in lower case
   * @param countsPerG may be negative where the cell is wired the other way round; never 0
   * @param zeroCounts counts with nothing on the scale
   */
  public record Scale(String chip, BusPlace place, double countsPerG, double zeroCounts) {}

  /** A temperature and humidity sensor by part number. */
  public record AirSensor(String chip, BusPlace place) {}

  /** The dosing pump: its output line and what it moves while on. */
  public record Pump(int gpio, double mlPerS) {}

  /**
   * A valve.
   *
   * @param gpio its output line
   * @param tank the tank it draws from, for a tank valve; none for a cup's valve
   */
  public record Valve(int gpio, Optional<String> tank) {}
}
