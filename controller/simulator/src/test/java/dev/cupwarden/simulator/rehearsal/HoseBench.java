package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchFile;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import dev.cupwarden.simulator.physics.LaminarHose;
import dev.cupwarden.simulator.physics.NominalCup;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;

/**
 * Cups that only dry, whose roots stay as they are, behind a hose in which water slides in rings:
 * what each is given and what it truly gets, by the simulator's own hose.
 */
final class HoseBench {
  static final double TICK_MIN = 5;

  final Bench bench;
  final SortedMap<String, Got> cups = new TreeMap<>();
  final List<AlertNotice> alerts = new ArrayList<>();
  final List<String> tooMuch = new ArrayList<>();

  /** Passes beyond 5 mg/L N that had waited for two hours, as the rule has it, and were told. */
  final List<String> afterWaiting = new ArrayList<>();

  double wasteMl;
  long longestWaitMin;
  private final Tick tick;
  private final LaminarHose hose;
  private final SplittableRandom random;
  private final double pump;
  private BenchState state;

  /** What one cup was meant to get and what it got. */
  static final class Got {
    final NominalCup nominal;
    final boolean fed;
    final double rateGPerH;
    final double dryG;
    double massG;
    double waterMl;
    double labelMl;
    double toldLabelMl;
    double dryH;
    double mostNMgPerL;

    Got(NominalCup nominal, boolean fed, double dryG, double rateGPerH, double massG) {
      this.nominal = nominal;
      this.fed = fed;
      this.dryG = dryG;
      this.rateGPerH = rateGPerH;
      this.massG = massG;
    }
  }

  HoseBench(String yaml, long seed) throws SetupException {
    this(yaml, seed, Double.NaN);
  }

  /**
   * @param pump what part of an order its pump gives, but for a fiftieth; NaN: drawn by lot
   */
  HoseBench(String yaml, long seed, double pump) throws SetupException {
    bench = BenchFile.read("bench.yaml", yaml);
    tick = new Tick(bench);
    state = tick.fresh();
    hose = new LaminarHose(bench.hose().volumeMl());
    random = new SplittableRandom(seed);
    double byLot = 1 + 0.03 * random.nextGaussian();
    this.pump = Double.isNaN(pump) ? byLot : pump;
    for (Cup cup : bench.cups().values()) {
      NominalCup nominal =
          NominalCup.of(bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup);
      double capacityG = nominal.dryG() + nominal.capacityMl();
      double days = 2.5 + 3 * random.nextDouble();
      double rateGPerH = 0.4 * nominal.availableMl() / (days * 24);
      double startG = capacityG - (0.1 + 0.35 * random.nextDouble()) * nominal.availableMl();
      double dryG = capacityG - bench.linesOf(cup).dry() * nominal.availableMl();
      cups.put(cup.name(), new Got(nominal, cup.stage().takesFeed(), dryG, rateGPerH, startG));
    }
  }

  double labelNMgPerL() {
    return bench.feeds().values().iterator().next().nPct()
        * 10
        * bench.feeds().values().iterator().next().labelGPerL();
  }

  HoseBench days(Instant start, int days) {
    for (long t = 0; t < days * 288L; t++) {
      step(start.plusSeconds(t * 300));
    }
    return this;
  }

  private void step(Instant at) {
    SortedMap<String, Double> massG = new TreeMap<>();
    cups.forEach(
        (name, got) -> {
          got.massG -= got.rateGPerH * TICK_MIN / 60;
          got.dryH += got.massG < got.dryG ? TICK_MIN / 60 : 0;
          massG.put(name, got.massG + 0.05 * random.nextGaussian());
        });
    SortedMap<String, Double> tankMl = new TreeMap<>();
    bench.tanks().values().forEach(tank -> tankMl.put(tank.name(), tank.sizeMl()));
    Tick.Step step =
        tick.step(
            state,
            new Observation(
                at,
                OptionalDouble.of(20),
                OptionalDouble.of(50),
                OptionalDouble.of(20),
                OptionalDouble.empty(),
                massG,
                new TreeMap<>(),
                tankMl,
                false,
                false,
                false,
                List.of()));
    state = step.state();
    alerts.addAll(step.brief().alerts());
    for (Instant since : state.hose().waiting().values()) {
      longestWaitMin = Math.max(longestWaitMin, Duration.between(since, at).toMinutes());
    }
    boolean told =
        step.brief().alerts().stream()
            .anyMatch(one -> one.code().equals("tank-unsuited") && one.state().equals("raised"));
    step.passes().forEach(pass -> give(at, pass, told ? afterWaiting : tooMuch));
  }

  private void give(Instant at, AllowedPass pass, List<String> beyond) {
    double flow = pump * (1 + 0.02 * random.nextGaussian());
    double tank = bench.tanks().get("feed").strength();
    double plainMl = pass.plainMl() * flow;
    double feedMl = pass.feedMl() * flow;
    double labelMl = plainMl * hose.push(plainMl, 0) + feedMl * hose.push(feedMl, tank);
    Got got = cups.get(pass.cup());
    if (got == null) {
      wasteMl += plainMl + feedMl;
      return;
    }
    got.massG += plainMl + feedMl;
    got.waterMl += plainMl + feedMl;
    got.labelMl += labelMl;
    got.toldLabelMl += pass.strength() * pass.totalMl();
    double nMgPerL = labelMl / (plainMl + feedMl) * labelNMgPerL();
    if (!pass.why().equals("rescue")) {
      got.mostNMgPerL = Math.max(got.mostNMgPerL, nMgPerL);
    }
    if (!got.fed && nMgPerL > 5 && !pass.why().equals("rescue")) {
      beyond.add(at + " " + pass.cup() + " " + pass.why() + " " + nMgPerL);
    }
  }

  /** What cups got that may be fed, or those that may not, mL at label strength. */
  double labelMl(boolean fed) {
    return cups.values().stream()
        .filter(got -> got.fed == fed)
        .mapToDouble(got -> got.labelMl)
        .sum();
  }

  /** Mean label strength of the water of the fed cups of a vessel. */
  double strength(String vessel) {
    double labelMl = 0;
    double waterMl = 0;
    for (var cup : cups.entrySet()) {
      if (cup.getValue().fed && bench.cups().get(cup.getKey()).vessel().equals(vessel)) {
        labelMl += cup.getValue().labelMl;
        waterMl += cup.getValue().waterMl;
      }
    }
    return labelMl / waterMl;
  }

  /** Cup-hours past the dry line. */
  double dryH() {
    return cups.values().stream().mapToDouble(got -> got.dryH).sum();
  }

  /** What the fed cups of a vessel got, as a part of what this very run meant to give them. */
  double partOfMeant(String vessel) {
    double labelMl = 0;
    double owedMl = 0;
    for (var cup : cups.entrySet()) {
      if (cup.getValue().fed && bench.cups().get(cup.getKey()).vessel().equals(vessel)) {
        labelMl += cup.getValue().labelMl;
        owedMl += state.hose().owedMl().getOrDefault(cup.getKey(), 0.0);
      }
    }
    return labelMl / (labelMl + owedMl);
  }
}
