package dev.cupwarden.core.setup;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;

/**
 * What is soldered to what.
 *
 * @param i2cBus number of the I2C bus
 * @param scales weight converters by name; each is under a cup or under a tank
 * @param air the air's temperature and humidity sensor, if there is one
 * @param pump the dosing pump
 * @param valves by name; each a normally closed valve
 * @param more what a bench may also have
 */
public record BoardWiring(
    int i2cBus,
    Map<String, Scale> scales,
    Optional<AirSensor> air,
    PumpWiring pump,
    Map<String, Valve> valves,
    More more) {

  /** A board with nothing else on it. */
  public BoardWiring(
      int i2cBus,
      Map<String, Scale> scales,
      Optional<AirSensor> air,
      PumpWiring pump,
      Map<String, Valve> valves) {
    this(i2cBus, scales, air, pump, valves, More.NONE);
  }

  /**
   * What a bench may also have.
   *
   * @param probes moisture probes by name
   * @param root the thermometer in a cup's root zone
   * @param outdoor the thermometer where cups are carried out to, in the shade
   * @param leak the contact that water on the floor or in the tray closes
   * @param gauges by tank
   * @param heartbeat the line that retriggers the pump-run timer
   * @param clock the clock that a battery keeps going
   * @param mat the heat mat below the cups, which the program does not switch
   * @param gpioChip the GPIO chip whose lines are meant, by its name below /dev or its label; none:
   *     that of the header with 40 pins
   * @param without why a part that keeps the bench safe is not there, in the grower's words
   */
  public record More(
      Map<String, Probe> probes,
      Optional<Thermometer> root,
      Optional<Thermometer> outdoor,
      Optional<Integer> leak,
      Map<String, TankGauge> gauges,
      Optional<Integer> heartbeat,
      Optional<ClockChip> clock,
      Optional<HeatMat> mat,
      Optional<String> gpioChip,
      Map<SafetyPart, String> without) {
    public static final More NONE =
        new More(Map.of(), Optional.empty(), Optional.empty(), Map.of(), Optional.empty());

    /**
     * On the usual lines, without a thermometer outdoors, a clock chip and a mat, and with nothing
     * waived.
     */
    public More(
        Map<String, Probe> probes,
        Optional<Thermometer> root,
        Optional<Integer> leak,
        Map<String, TankGauge> gauges,
        Optional<Integer> heartbeat) {
      this(
          probes,
          root,
          Optional.empty(),
          leak,
          gauges,
          heartbeat,
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Map.of());
    }
  }

  /**
   * A heat mat under a thermostat of its own.
   *
   * @param cutOutC where a high-limit cut-out that needs no software ends its heat, C; none where
   *     nobody named one
   */
  public record HeatMat(OptionalDouble cutOutC) {}

  /**
   * A clock chip with a battery, which the machine's kernel reads.
   *
   * @param chip part number in lower case
   * @param driftPer30Days the most that it goes wrong in 30 days, either way
   */
  public record ClockChip(String chip, Duration driftPer30Days) {}

  /** Where a weight converter is reached. */
  public sealed interface ConverterPlace {}

  /** Where on a bus a chip answers: its own address, behind a multiplexer's channel or not. */
  public record BusPlace(int address, Optional<MuxChannel> behind) implements ConverterPlace {}

  /** The two lines of a clocked converter. */
  public record ClockedLines(int clockGpio, int dataGpio) implements ConverterPlace {}

  /** A channel (0 to 7) of an eight-way I2C multiplexer at an address. */
  public record MuxChannel(int address, int channel) {}

  /**
   * A weight converter with its calibration.
   *
   * @param chip part number in lower case
   * @param countsPerG may be negative where the cell is wired the other way round; never 0
   * @param zeroCounts counts with nothing on the scale
   */
  public record Scale(String chip, ConverterPlace place, double countsPerG, double zeroCounts) {}

  /** A temperature and humidity sensor by part number. */
  public record AirSensor(String chip, BusPlace place) {}

  /**
   * A moisture probe.
   *
   * @param chip part number of its converter in lower case
   * @param input of the converter, 0 to 3; up to four probes share one
   * @param points its calibration, two or more
   */
  public record Probe(String chip, BusPlace place, int input, List<ProbePoint> points) {}

  /** What a probe showed at a water content found by weighing: volts, volume fraction. */
  public record ProbePoint(double volts, double theta) {}

  /**
   * A one-wire thermometer.
   *
   * @param chip part number in lower case
   * @param id as the kernel names it, such as 28-0316a2795aff
   */
  public record Thermometer(String chip, String id) {}

  /** What tells how much is in a tank. */
  public sealed interface TankGauge {}

  /**
   * A float that closes its contact while water stands at it.
   *
   * @param atMl what the tank holds then
   */
  public record FloatSwitch(int gpio, double atMl) implements TankGauge {}

  /**
   * A scale under the tank.
   *
   * @param scale its name
   * @param emptyG the tank without water
   */
  public record TankScale(String scale, double emptyG) implements TankGauge {}

  /** An output that switches a part. */
  public sealed interface OutputPlace {}

  /** A line of the processor; {@code activeLow}: low is on. */
  public record Gpio(int line, boolean activeLow) implements OutputPlace {}

  /** A line (0 to 7) of an I2C port expander; low is on. */
  public record ExpanderPin(BusPlace expander, int pin) implements OutputPlace {}

  /**
   * The dosing pump: its output line and what it moves while on.
   *
   * @param longest the grower's own caps, which only tighten the board's
   */
  public record PumpWiring(int gpio, double mlPerS, boolean activeLow, OnTimes longest) {
    public PumpWiring(int gpio, double mlPerS) {
      this(gpio, mlPerS, false, OnTimes.USUAL);
    }
  }

  /** The longest on-times at one go, within an hour, within a day; where missing, the board's. */
  public record OnTimes(
      Optional<Duration> perPass, Optional<Duration> perHour, Optional<Duration> perDay) {
    public static final OnTimes USUAL =
        new OnTimes(Optional.empty(), Optional.empty(), Optional.empty());
  }

  /**
   * A valve.
   *
   * @param output its output
   * @param tank the tank it draws from, for a tank valve; none for a cup's valve
   */
  public record Valve(OutputPlace output, Optional<String> tank) {
    public Valve(int gpio, Optional<String> tank) {
      this(new Gpio(gpio, false), tank);
    }
  }

  /** Scales that no tank stands on. */
  public Set<String> scalesOfCups() {
    Set<String> names = new TreeSet<>(scales.keySet());
    for (TankGauge gauge : more.gauges().values()) {
      if (gauge instanceof TankScale under) {
        names.remove(under.scale());
      }
    }
    return names;
  }

  /**
   * Valves that lead neither from a tank nor to waste.
   *
   * @param drain the valve that leads to waste
   */
  public Set<String> valvesOfCups(Optional<String> drain) {
    Set<String> names = new TreeSet<>();
    valves.forEach(
        (name, valve) -> {
          if (valve.tank().isEmpty() && !drain.equals(Optional.of(name))) {
            names.add(name);
          }
        });
    return names;
  }
}
