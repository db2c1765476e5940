package dev.cupwarden.host.app;

import dev.cupwarden.app.loop.TickReport;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.simulator.SimulatedBench;
import dev.cupwarden.simulator.physics.SimulatedCup;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** How the cups really were, tick by tick; the controller knows nothing of it. */
final class WinterTruth {
  /** Nothing more is drawn from a tank that holds less. */
  private static final double EMPTY_ML = 5;

  private final Bench bench;
  private final SimulatedBench world;
  private final Map<String, Cup> cups = new TreeMap<>();
  private final Map<String, List<Spell>> empty = new TreeMap<>();
  private long passes;

  /** A time in which a cup was as it should not be. */
  record Spell(Instant from, Instant to) {
    double hours() {
      return Duration.between(from, to).toSeconds() / 3600.0;
    }
  }

  private static final class Cup {
    final List<Spell> dry = new ArrayList<>();
    final List<Spell> wet = new ArrayList<>();
    final TreeMap<Instant, Double> outMl = new TreeMap<>();
    double driest = Double.NEGATIVE_INFINITY;
    double saltiestMsPerCm;
    Instant dead;
  }

  WinterTruth(Bench bench, SimulatedBench world) {
    this.bench = bench;
    this.world = world;
    bench.cups().keySet().forEach(name -> cups.put(name, new Cup()));
  }

  void see(TickReport report) {
    passes += report.doses().size();
    world
        .tankMl()
        .forEach(
            (tank, ml) -> {
              boolean is = ml < Math.max(EMPTY_ML, bench.belowFloatMl(tank));
              note(empty.computeIfAbsent(tank, name -> new ArrayList<>()), is, report.at());
            });
    for (CupStatus told : report.cups()) {
      Cup seen = cups.get(told.cup());
      SimulatedCup truth = world.cup(told.cup());
      double leastAir = bench.mixes().get(bench.cups().get(told.cup()).mix()).leastAir();
      note(seen.dry, truth.depletion() > told.dry(), report.at());
      note(seen.wet, truth.airFraction() < leastAir, report.at());
      seen.driest = Math.max(seen.driest, truth.depletion());
      seen.saltiestMsPerCm = Math.max(seen.saltiestMsPerCm, truth.ecAtCapacityMsPerCm());
      seen.outMl.put(report.at(), truth.balance().waterOutMl());
      if (!truth.alive() && seen.dead == null) {
        seen.dead = report.at();
      }
    }
  }

  private void note(List<Spell> spells, boolean is, Instant at) {
    if (!is) {
      return;
    }
    Instant before = at.minus(bench.tick().multipliedBy(2));
    int last = spells.size() - 1;
    if (last >= 0 && spells.get(last).to().isAfter(before)) {
      spells.set(last, new Spell(spells.get(last).from(), at.plus(bench.tick())));
    } else {
      spells.add(new Spell(at, at.plus(bench.tick())));
    }
  }

  /** When a cup was past its dry line. */
  List<Spell> dry(String cup) {
    return cups.get(cup).dry;
  }

  /** When a cup's mix held less air than roots need. */
  List<Spell> wet(String cup) {
    return cups.get(cup).wet;
  }

  /** What a cup lost in a day, mean of the week before, mL. */
  double usePerDayMl(String cup, Instant at) {
    TreeMap<Instant, Double> out = cups.get(cup).outMl;
    Map.Entry<Instant, Double> then = out.ceilingEntry(at.minus(Duration.ofDays(7)));
    Map.Entry<Instant, Double> now = out.floorEntry(at);
    double days = Duration.between(then.getKey(), now.getKey()).toSeconds() / 86_400.0;
    return (now.getValue() - then.getValue()) / days;
  }

  /** Water of a cup between capacity and where the cutting can take no more, mL. */
  double availableMl(String cup) {
    return world.cup(cup).availableMl();
  }

  /** How many passes the controller gave. */
  long passes() {
    return passes;
  }

  /** When a cutting died; null while it lives. */
  Instant dead(String cup) {
    return cups.get(cup).dead;
  }

  /** When a tank was empty, so far as it can be drawn from. */
  List<Spell> empty(String tank) {
    return empty.getOrDefault(tank, List.of());
  }

  /** One row a cup, all by the simulator's truth. */
  String told() {
    StringBuilder lines = new StringBuilder();
    lines.append(
        "| cup | driest | h past dry | h past wet | saltiest, mS/cm | roots | leaves, cm² |\n");
    lines.append("|---|---|---|---|---|---|---|\n");
    cups.forEach(
        (name, cup) ->
            lines.append(
                "| %s | %.2f | %.1f | %.1f | %.1f | %s | %.0f%s |%n"
                    .formatted(
                        name,
                        cup.driest,
                        hours(cup.dry),
                        hours(cup.wet),
                        cup.saltiestMsPerCm,
                        world.cup(name).stage().word(),
                        world.cup(name).leafCm2(),
                        cup.dead == null ? "" : ", dead since " + cup.dead)));
    return lines.toString();
  }

  static double hours(List<Spell> spells) {
    return spells.stream().mapToDouble(Spell::hours).sum();
  }
}
