package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.world.Balance;
import dev.cupwarden.simulator.world.TrueCup;
import java.util.TreeMap;

/** Adds up the truth of one rehearsal, tick by tick. */
final class Tally {
  private final Scene scene;
  private final Stand stand;
  private final double tickH;
  private double cupHours;
  private double wetHours;
  private double dryHours;
  private double labelNMg;
  private int passes;
  private double startMl;
  private double startNMg;

  Tally(Scene scene, Stand stand) {
    this.scene = scene;
    this.stand = stand;
    this.tickH = scene.bench().tick().toSeconds() / 3600.0;
    for (TrueCup cup : scene.cups()) {
      Balance balance = cup.balance();
      startMl += balance.waterInMl();
      startNMg += balance.nInMg();
    }
  }

  void tick() {
    for (int cup = 0; cup < scene.count(); cup++) {
      TrueCup truth = scene.cup(cup);
      if (stand.onBench()[cup] && truth.alive()) {
        RootStage stage = truth.stage();
        cupHours += tickH;
        wetHours += truth.airFraction() < scene.mix(cup).leastAir() ? tickH : 0;
        dryHours += truth.depletion() > scene.lines(cup, stage).dry() ? tickH : 0;
        if (stage.takesFeed()) {
          double labelMg = scene.labelNMgPerMl() * scene.nominal(cup).availableMl();
          labelNMg += labelMg * tickH / 24 / scene.labelDays();
        }
      }
    }
  }

  void pass() {
    passes++;
  }

  Figures figures(Referee referee, AlertJudge alerts) {
    int rotted = 0;
    int dried = 0;
    int toughened = 0;
    double inMl = -startMl;
    double trayMl = stand.spilledMl();
    double nMg = -startNMg;
    double heldNMg = 0;
    double ecSum = 0;
    double highestEc = 0;
    double leafCm2 = 0;
    for (TrueCup cup : scene.cups()) {
      Balance balance = cup.balance();
      inMl += balance.waterInMl();
      nMg += balance.nInMg();
      trayMl += cup.trayMl();
      toughened += cup.stage().takesFeed() ? 1 : 0;
      if (cup.alive()) {
        heldNMg += balance.nHeldMg();
        ecSum += cup.ecAtCapacityMsPerCm();
        highestEc = Math.max(highestEc, cup.ecAtCapacityMsPerCm());
        leafCm2 += cup.leafCm2();
      } else if (cup.rotted()) {
        rotted++;
      } else {
        dried++;
      }
    }
    int living = scene.count() - rotted - dried;
    return new Figures(
        cupHours,
        wetHours,
        dryHours,
        scene.count(),
        rotted,
        dried,
        inMl + stand.spilledMl(),
        trayMl,
        nMg,
        heldNMg,
        stand.unfedNMg(),
        labelNMg,
        living == 0 ? 0 : ecSum / living,
        highestEc,
        passes,
        referee.broken().size(),
        referee.fedTooEarly(),
        toughened,
        leafCm2,
        new TreeMap<>(alerts.counts()));
  }
}
