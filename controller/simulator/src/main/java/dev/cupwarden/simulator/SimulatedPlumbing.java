package dev.cupwarden.simulator;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BoardWiring;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Tank;
import dev.cupwarden.simulator.physics.LaminarHose;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Tanks, hoses, pump and valves, moved by the levels of the output lines. Water goes from the open
 * tanks through the pump and the hose that all share to the open cups and to waste, in equal parts;
 * without an open way the pump stalls.
 */
final class SimulatedPlumbing {
  private static final double LEAK_PART = 0.1;
  private static final double DRIP_ML_PER_S = 20 / 3600.0;

  /** Where water comes out: at a cup's place. */
  interface Outlet {
    void pour(String cup, double ml, double strength);
  }

  private final Bench bench;
  private final Outlet outlet;
  private final SimulatedPump pump;
  private final Map<String, Boolean> driven = new TreeMap<>();
  private final Map<String, ValveFault> faults = new TreeMap<>();
  private final Map<String, String> cupOfValve = new TreeMap<>();
  private final Map<String, String> tankOfValve = new TreeMap<>();
  private final Map<String, Double> tankMl = new TreeMap<>();
  private final LaminarHose shared;
  private boolean hoseOff;
  private boolean pumpDriven;
  private boolean pumpShort;
  private double wasteMl;

  SimulatedPlumbing(Bench bench, BoardWiring wiring, Outlet outlet, long seed) {
    this.bench = bench;
    this.outlet = outlet;
    this.pump = new SimulatedPump(wiring.pump().mlPerS(), seed);
    wiring
        .valves()
        .forEach(
            (name, valve) -> {
              driven.put(name, false);
              valve.tank().ifPresent(tank -> tankOfValve.put(name, tank));
            });
    for (Cup cup : bench.cups().values()) {
      place(cup);
    }
    this.shared = new LaminarHose(bench.hose().volumeMl());
    bench.tanks().values().forEach(tank -> tankMl.put(tank.name(), tank.sizeMl()));
  }

  /** A cup's tube is put to its valve. */
  void place(Cup cup) {
    cup.wiring().valve().ifPresent(valve -> cupOfValve.put(valve, cup.name()));
  }

  /** Nothing stands below the tube any more. */
  void takeOut(String cup) {
    cupOfValve.values().removeIf(cup::equals);
  }

  /** The pump is switched. */
  void drivePump(boolean on) {
    pumpDriven = on;
    pump.drive(on || pumpShort);
  }

  /** The pump's switch fails short: it runs whatever its line says. */
  void shortPump(boolean isShort) {
    pumpShort = isShort;
    drivePump(pumpDriven);
  }

  /** The tubes behind two cups' valves change places. */
  void exchangeTubes(String valve, String other) {
    String cup = cupOfValve.get(valve);
    if (cup == null || !cupOfValve.containsKey(other)) {
      throw new IllegalArgumentException("No tube to a cup behind " + valve + " or " + other);
    }
    cupOfValve.put(valve, cupOfValve.put(other, cup));
  }

  /** A valve is switched. */
  void driveValve(String valve, boolean on) {
    driven.put(valve, on);
  }

  void breakValve(String valve, ValveFault fault) {
    if (!driven.containsKey(valve)) {
      throw new IllegalArgumentException("No valve " + valve);
    }
    faults.put(valve, fault);
  }

  void pullHose(boolean isOff) {
    hoseOff = isOff;
  }

  boolean pumpOn() {
    return pump.on();
  }

  /** How many outputs are on. */
  long linesOn() {
    return driven.values().stream().filter(on -> on).count() + (pump.on() ? 1 : 0);
  }

  Map<String, Double> tankMl() {
    return new TreeMap<>(tankMl);
  }

  /** What ran to waste, mL. */
  double wasteMl() {
    return wasteMl;
  }

  void fillTo(String tank, double ml) {
    tankMl.computeIfPresent(
        tank, (name, had) -> Math.max(0, Math.min(bench.tanks().get(name).sizeMl(), ml)));
  }

  /** Lets the water move for that long with the lines as they are. */
  void advance(double seconds) {
    double movedMl = pump.move(seconds);
    double offeredMl = hoseOff ? 0 : movedMl;
    Map<String, Double> open = new TreeMap<>();
    cupOfValve.forEach(
        (valve, cup) -> {
          double way = opening(valve);
          if (way > 0) {
            open.put(cup, way);
          }
        });
    double toWaste = bench.hose().drain().map(this::opening).orElse(0.0);
    double ways = toWaste + open.values().stream().mapToDouble(Double::doubleValue).sum();
    if (ways > 0 && offeredMl > 0) {
      Drawn drawn = draw(offeredMl * Math.min(1, ways));
      double strength = shared.push(drawn.ml, drawn.strength);
      open.forEach((cup, way) -> outlet.pour(cup, drawn.ml * way / ways, strength));
      wasteMl += drawn.ml * toWaste / ways;
    }
    drip(seconds);
  }

  /** How far a valve is open, 0 to 1. */
  private double opening(String valve) {
    return switch (faults.getOrDefault(valve, ValveFault.NONE)) {
      case NONE -> driven.get(valve) ? 1 : 0;
      case STUCK_SHUT -> 0;
      case STUCK_OPEN -> 1;
      case LEAKING -> driven.get(valve) ? 1 : LEAK_PART;
    };
  }

  private void drip(double seconds) {
    cupOfValve.forEach(
        (valve, cup) -> {
          if (faults.get(valve) == ValveFault.LEAKING && !driven.get(valve)) {
            Drawn drawn = draw(DRIP_ML_PER_S * seconds);
            outlet.pour(cup, drawn.ml, shared.push(drawn.ml, drawn.strength));
          }
        });
  }

  private record Drawn(double ml, double strength) {}

  /** From the tank whose valve is open, or the only one; less when it runs empty. */
  private Drawn draw(double wantedMl) {
    Optional<Tank> from = source();
    if (from.isEmpty()) {
      return bench.tanks().isEmpty() ? new Drawn(wantedMl, 0) : new Drawn(0, 0);
    }
    double ml = Math.min(wantedMl, tankMl.get(from.get().name()));
    tankMl.merge(from.get().name(), -ml, Double::sum);
    return new Drawn(ml, from.get().feed().isPresent() ? from.get().strength() : 0);
  }

  private Optional<Tank> source() {
    for (Map.Entry<String, String> valve : tankOfValve.entrySet()) {
      if (opening(valve.getKey()) > 0.5) {
        return Optional.of(bench.tanks().get(valve.getValue()));
      }
    }
    if (tankOfValve.isEmpty()) {
      return bench.tanks().values().stream().findFirst();
    }
    // Pressure left in the hose, or a drip: from the first tank.
    return pump.on() ? Optional.empty() : bench.tanks().values().stream().findFirst();
  }
}
