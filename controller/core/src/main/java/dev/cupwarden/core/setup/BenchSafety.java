package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.Gpio;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;

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

  /**
   * @param bench one with a board
   */
  public BenchSafety(Bench bench) {
    this.bench = bench;
    this.wiring = bench.board().orElseThrow();
  }

  /** What must be put right before the bench may run, a sentence each. */
  public List<String> faults() {
    List<String> faults = new ArrayList<>();
    for (SafetyPart part : SafetyPart.values()) {
      if (!wiring.more().without().containsKey(part)) {
        for (String of : lacking(part)) {
          faults.add(part.missing(of) + ", or say why not (board.without." + part.word() + ").");
        }
      }
    }
    faults.addAll(
        linesThat(
            gpio -> !gpio.activeLow() && gpio.line() <= LAST_PULLED_UP,
            "%s hangs on GPIO %d, which is pulled up from power-up until the program starts, and so"
                + " is on for that time: take one of GPIO "
                + (LAST_PULLED_UP + 1)
                + " to 27."));
    return faults;
  }

  /** What is not there by the grower's word, with the reason; to be told at each start. */
  public List<String> waived() {
    return wiring.more().without().entrySet().stream()
        .map(one -> "Runs without %s: %s".formatted(one.getKey().word(), one.getValue()))
        .toList();
  }

  /** What a person has to measure, a sentence each. */
  public List<String> notes() {
    return linesThat(
        gpio -> gpio.activeLow() && gpio.line() > LAST_PULLED_UP,
        "%s is on while its line is low, and GPIO %d is pulled down until the program starts: its"
            + " stage needs a pull-up of its own; measure that it is off then.");
  }

  /** Each tank, or other whole, that lacks that part; "" for the bench. */
  private Collection<String> lacking(SafetyPart part) {
    BoardWiring.More more = wiring.more();
    return switch (part) {
      case HEARTBEAT -> bench(more.heartbeat().isEmpty());
      case LEAK -> bench(more.leak().isEmpty());
      case HOSE -> bench(bench.hasFeedTank() && !bench.hose().told());
      case TANK_LEVEL ->
          bench.tanks().keySet().stream().filter(tank -> !more.gauges().containsKey(tank)).toList();
      case CUT_OUT -> bench(more.mat().filter(mat -> mat.cutOutC().isEmpty()).isPresent());
      case ROOT_THERMOMETER -> bench(more.mat().isPresent() && more.root().isEmpty());
    };
  }

  private static List<String> bench(boolean lacks) {
    return lacks ? List.of("") : List.of();
  }

  private List<String> linesThat(Predicate<Gpio> are, String sentence) {
    return lines().entrySet().stream()
        .filter(output -> are.test(output.getValue()))
        .map(output -> sentence.formatted(output.getKey(), output.getValue().line()))
        .toList();
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
