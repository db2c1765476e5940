package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;

/** The controller's own tick, fed with the readings of a rehearsal. */
final class CupwardenPolicy implements Policy {
  private final Tick tick;
  private final List<String> cups;
  private final List<String> tanks;
  private BenchState state;

  CupwardenPolicy(Bench bench, List<String> cups) throws SetupException {
    this.tick = tick(bench);
    this.cups = cups;
    this.tanks = List.copyOf(bench.tanks().keySet());
    this.state = tick.fresh();
  }

  /** Whoever rehearses has refused a bench that no tick can run. */
  private static Tick tick(Bench bench) {
    try {
      return new Tick(bench);
    } catch (SetupException refused) {
      throw new IllegalArgumentException(refused.getMessage(), refused);
    }
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    Tick.Step step = tick.step(state, observed(readings));
    state = step.state();
    List<Watering> passes = new ArrayList<>();
    for (AllowedPass pass : step.passes()) {
      int cup = Collections.binarySearch(cups, pass.cup());
      passes.add(new Watering(cup, pass.plainMl(), pass.feedMl(), pass.strength(), pass.why()));
    }
    return new Decision(passes, step.brief().alerts());
  }

  /** What it keeps. */
  BenchState state() {
    return state;
  }

  /** Where the bench stands, as the controller believes. */
  Tick.Standing standing() {
    return tick.standing(state);
  }

  private Observation observed(RehearsalReadings readings) {
    SortedMap<String, Double> massG = new TreeMap<>();
    for (int cup = 0; cup < cups.size(); cup++) {
      if (!Double.isNaN(readings.massG()[cup])) {
        massG.put(cups.get(cup), readings.massG()[cup]);
      }
    }
    SortedMap<String, Double> tankMl = new TreeMap<>();
    for (int tank = 0; tank < tanks.size(); tank++) {
      tankMl.put(tanks.get(tank), readings.tankMl()[tank]);
    }
    return new Observation(
        readings.at(),
        OptionalDouble.of(readings.air().airC()),
        OptionalDouble.of(readings.air().rhPct()),
        OptionalDouble.of(readings.air().rootC()),
        OptionalDouble.of(readings.air().lightUmolPerM2S()),
        massG,
        Collections.emptySortedMap(),
        tankMl,
        false,
        false,
        false,
        readings.orders());
  }
}
