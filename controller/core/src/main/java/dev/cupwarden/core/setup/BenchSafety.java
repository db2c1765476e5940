package dev.cupwarden.core.setup;

import dev.cupwarden.core.setup.BoardWiring.Gpio;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;

/**
 * What a bench file itself says of the parts that keep people, floors and cuttings safe. {@code
 * check} tells all of it as failed, and {@code run} waters no bench of which anything of it is so.
 */
public final class BenchSafety {
  /**
   * The processor's lines from 0 to this one are pulled up from power-up until a program takes
   * them, those above it down (BCM2835 ARM Peripherals, table 6-31, default pull). Of a chip that
   * the bench file names nobody knows it: a person measures.
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

  /** All that must be put right before the bench may be watered, a sentence each. */
  public List<String> faults() {
    List<String> faults = new ArrayList<>(parts());
    faults.addAll(ways());
    bench.toldTrayMl().ifPresent(trayMl -> tray(trayMl).ifPresent(faults::add));
    return faults;
  }

  /** Parts that are missing and not waived, and outputs that are on before the program is. */
  public List<String> parts() {
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
            gpio -> isOfTheHeader() && !gpio.activeLow() && gpio.line() <= LAST_PULLED_UP,
            "%s hangs on GPIO %d, which is pulled up from power-up until the program starts, and so"
                + " is on for that time: take one of GPIO "
                + (LAST_PULLED_UP + 1)
                + " to 27."));
    return faults;
  }

  /** Cups that cannot be weighed or watered, tanks out of which nothing can be pumped. */
  public List<String> ways() {
    List<String> faults = new ArrayList<>();
    for (Cup cup : bench.cups().values()) {
      if (cup.wiring().valve().isEmpty()) {
        faults.add(noValve(cup.name()));
      }
      if (cup.wiring().scale().isEmpty() && cup.wiring().probe().isEmpty()) {
        faults.add("Cup %s has neither scale nor probe.".formatted(cup.name()));
      }
    }
    for (String tank : bench.tanks().keySet()) {
      boolean valve =
          wiring.valves().values().stream()
              .anyMatch(one -> one.tank().filter(tank::equals).isPresent());
      if (!valve && bench.tanks().size() > 1) {
        faults.add(noTankValve(tank));
      }
    }
    return faults;
  }

  /**
   * All tanks may run out at once, so the tray must hold what they hold together.
   *
   * @param trayMl what the drip tray holds
   * @return a sentence where it does not
   */
  public Optional<String> tray(double trayMl) {
    double sumMl = bench.tanksMl();
    if (Double.isInfinite(sumMl)) {
      return Optional.of("A tank's size is not known: name the tanks in the bench file.");
    }
    return trayMl >= sumMl
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT,
                "The tanks hold %.1f L, the drip tray %.1f L: take smaller tanks or a larger tray.",
                sumMl / 1000,
                trayMl / 1000));
  }

  /**
   * That nobody has said what the drip tray holds. It is no part that is missing, and who answered
   * it to {@code check} has done all that was asked: {@code check} does not pass without an answer,
   * {@code run} refuses nobody for it and tells it.
   */
  public Optional<String> untold() {
    if (bench.toldTrayMl().isPresent()) {
      return Optional.empty();
    }
    double sumMl = bench.tanksMl();
    String tanks =
        Double.isInfinite(sumMl)
            ? "Nobody knows what the tanks hold"
            : String.format(Locale.ROOT, "The tanks hold %.1f L", sumMl / 1000);
    return Optional.of(
        tanks
            + "; whether the drip tray holds that is not known: say it in the bench file (tray).");
  }

  /** What the bench runs without, a sentence each: told at each start, and with its set-up. */
  public List<String> runsWithout() {
    List<String> told = new ArrayList<>(waived());
    untold().ifPresent(told::add);
    return told;
  }

  /** What is not there by the grower's word, with the reason. */
  public List<String> waived() {
    return wiring.more().without().entrySet().stream()
        .map(one -> "Runs without %s: %s".formatted(one.getKey().word(), one.getValue()))
        .toList();
  }

  /** What a person has to measure, a sentence each. */
  public List<String> notes() {
    if (!isOfTheHeader()) {
      return List.of(
          "What the lines of %s do until the program starts, and whether they can be pulled up, is"
                  .formatted(wiring.more().gpioChip().orElseThrow())
              + " not known: give each output stage a pull-down and each contact a pull-up of its"
              + " own, and measure that pump and valves are off while the board starts.");
    }
    return linesThat(
        gpio -> gpio.activeLow() && gpio.line() > LAST_PULLED_UP,
        "%s is on while its line is low, and GPIO %d is pulled down until the program starts: its"
            + " stage needs a pull-up of its own; measure that it is off then.");
  }

  private boolean isOfTheHeader() {
    return wiring.more().gpioChip().isEmpty();
  }

  /** Of a cup that cannot be watered. */
  public static String noValve(String cup) {
    return "Cup %s has no valve.".formatted(cup);
  }

  /** Of a tank out of which nothing can be pumped. */
  public static String noTankValve(String tank) {
    return "No valve leads from the tank %s.".formatted(tank);
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
