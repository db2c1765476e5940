package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.Gpio;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a bench file itself says of the parts that keep people, floors and cuttings safe. */
public final class BenchSafety {
  /**
   * The processor's lines from 0 to this one are pulled up from power-up until a program takes
   * them, those above it down (BCM2835 ARM Peripherals, table 6-31, default pull). On another
   * processor the rule costs a builder a choice of pins and nothing else.
   */
  private static final int LAST_PULLED_UP = 8;

  private final Bench bench;
  private final BoardWiring wiring;

  public BenchSafety(Bench bench, BoardWiring wiring) {
    this.bench = bench;
    this.wiring = wiring;
  }

  /** What must be put right before the bench may run, a sentence each. */
  public List<String> faults() {
    List<String> faults = new ArrayList<>();
    for (SafetyPart part : SafetyPart.values()) {
      if (!wiring.more().without().containsKey(part)) {
        lacks(part).forEach(lack -> faults.add(lack + ", or say why not (" + key(part) + ")."));
      }
    }
    onAtPowerUp().forEach(faults::add);
    return faults;
  }

  /** What is not there by the grower's word, with the reason; to be told at each start. */
  public List<String> waived() {
    return wiring.more().without().entrySet().stream()
        .map(one -> "Runs without %s: %s".formatted(one.getKey().word(), one.getValue()))
        .toList();
  }

  private static String key(SafetyPart part) {
    return "board.without." + part.word();
  }

  private List<String> lacks(SafetyPart part) {
    BoardWiring.More more = wiring.more();
    boolean lacking =
        switch (part) {
          case HEARTBEAT -> more.heartbeat().isEmpty();
          case LEAK -> more.leak().isEmpty();
          case HOSE -> feeds() && !bench.hose().told();
          case TANK_LEVEL -> !withoutGauge().isEmpty();
          case CUT_OUT -> more.mat().filter(mat -> mat.cutOutC().isEmpty()).isPresent();
          case ROOT_THERMOMETER -> more.mat().isPresent() && more.root().isEmpty();
        };
    if (!lacking) {
      return List.of();
    }
    return part == SafetyPart.TANK_LEVEL
        ? withoutGauge().stream().map(part::missing).toList()
        : List.of(part.missing(""));
  }

  private boolean feeds() {
    return bench.tanks().values().stream().anyMatch(tank -> tank.feed().isPresent());
  }

  private List<String> withoutGauge() {
    return bench.tanks().keySet().stream()
        .filter(tank -> !wiring.more().gauges().containsKey(tank))
        .toList();
  }

  private List<String> onAtPowerUp() {
    List<String> on = new ArrayList<>();
    lines()
        .forEach(
            (name, gpio) -> {
              if (!gpio.activeLow() && gpio.line() <= LAST_PULLED_UP) {
                on.add(
                    ("%s hangs on GPIO %d, which is pulled up from power-up until the program"
                            + " starts, and so is on for that time: take one of GPIO %d to 27.")
                        .formatted(name, gpio.line(), LAST_PULLED_UP + 1));
              }
            });
    return on;
  }

  /** What a person has to measure, a sentence each. */
  public List<String> notes() {
    List<String> notes = new ArrayList<>();
    lines()
        .forEach(
            (name, gpio) -> {
              if (gpio.activeLow() && gpio.line() > LAST_PULLED_UP) {
                notes.add(
                    ("%s is on while its line is low, and GPIO %d is pulled down until the program"
                            + " starts: its stage needs a pull-up of its own; measure that it is"
                            + " off then.")
                        .formatted(name, gpio.line()));
              }
            });
    return notes;
  }

  /** Outputs on the processor's own lines, by how a sentence begins with them. */
  private Map<String, Gpio> lines() {
    Map<String, Gpio> lines = new LinkedHashMap<>();
    lines.put("The pump", new Gpio(wiring.pump().gpio(), wiring.pump().activeLow()));
    new TreeMap<>(wiring.valves())
        .forEach(
            (name, valve) -> {
              if (valve.output() instanceof Gpio gpio) {
                lines.put("Valve " + name, gpio);
              }
            });
    return lines;
  }
}
