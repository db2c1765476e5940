package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.faults.FaultPlan;
import dev.cupwarden.simulator.faults.InjectedFault;
import dev.cupwarden.simulator.physics.LaminarHose;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Cell;
import java.util.Arrays;
import java.util.SplittableRandom;

/**
 * What stands between the cups and whoever waters them: scales, valves, tanks, faults, and where
 * each cup is just now. A place is a scale with its valve; cups can be away from their places or in
 * each other's.
 */
final class Stand {
  private final Scene scene;
  private final FaultPlan faults;
  private final Tanks tanks;
  private final Cell[] scales;
  private final int[] cupAt;
  private final long[] awayUntil;
  private final boolean[] awayTold;
  private final boolean[] onBench;
  private final RootStage[] said;
  private final double[] shownG;
  private final double[] leanG;
  private final long[] leanUntil;
  private final double pumpFactor;
  private final SplittableRandom random;
  private final double tickH;
  private final LaminarHose hose;
  private double spilledMl;
  private double unfedNMg;
  private long now;

  /** On the scales of the first world. */
  Stand(Scene scene, FaultLevel level, int days, long seed) {
    this(scene, World.FIRST, level, days, seed);
  }

  Stand(Scene scene, World world, FaultLevel level, int days, long seed) {
    SplittableRandom seeds = new SplittableRandom(seed);
    this.scene = scene;
    this.tickH = scene.bench().tick().toSeconds() / 3600.0;
    this.faults = new FaultPlan(level, scene.count(), days, tickH * 60, seeds.nextLong());
    this.tanks = new Tanks(scene.bench());
    this.hose = new LaminarHose(scene.bench().hose().volumeMl());
    this.random = seeds.split();
    // A pump calibrated with a measuring cup is a few percent off for good.
    this.pumpFactor = 1 + 0.03 * random.nextGaussian();
    int count = scene.count();
    this.scales = new Cell[count];
    this.cupAt = new int[count];
    this.awayUntil = new long[count];
    this.awayTold = new boolean[count];
    this.onBench = new boolean[count];
    this.said = new RootStage[count];
    this.shownG = new double[count];
    this.leanG = new double[count];
    this.leanUntil = new long[count];
    Arrays.fill(onBench, true);
    for (int i = 0; i < count; i++) {
      scales[i] = world.cell(level != FaultLevel.NONE, seeds.nextLong());
      cupAt[i] = i;
      said[i] = scene.entered(i).stage();
    }
  }

  /** Faults begin and end; what they do by themselves happens. */
  void reach(long tick) {
    now = tick;
    faults.reach(tick);
    for (int cup = 0; cup < scene.count(); cup++) {
      if (faults.began(InjectedFault.INFECTION, cup)) {
        scene.cup(cup).infect(faults.size(InjectedFault.INFECTION, cup));
      }
      if (faults.holds(InjectedFault.VALVE_DRIPPING, cup) && present(cupAt[cup], tick)) {
        double ml = faults.size(InjectedFault.VALVE_DRIPPING, cup) * tickH;
        double drawnMl = tanks.draw(ml, false);
        give(cupAt[cup], drawnMl, hose.push(drawnMl, 0));
      }
      int neighbour = (cup + 1) % scene.count();
      boolean begins = faults.began(InjectedFault.SWAPPED, cup) && cupAt[cup] == cup;
      if (begins && cupAt[neighbour] == neighbour && onBench[cup] && onBench[neighbour]) {
        swap(cup, neighbour);
      }
    }
  }

  /** What the scales show now. */
  double[] weigh(long tick, Air air) {
    for (int place = 0; place < shownG.length; place++) {
      shownG[place] = onBench[place] ? show(place, tick, air) : Double.NaN;
    }
    return shownG;
  }

  private double show(int place, long tick, Air air) {
    double loadG = present(cupAt[place], tick) ? scene.cup(cupAt[place]).grossG() : 0;
    if (faults.holds(InjectedFault.LEANING, place)) {
      loadG += faults.size(InjectedFault.LEANING, place);
    }
    loadG += leanUntil[place] > tick ? leanG[place] : 0;
    boolean stuck = faults.holds(InjectedFault.SCALE_STUCK, place) && tick > 0;
    double noiseTimes =
        faults.holds(InjectedFault.SCALE_NOISY, place)
            ? faults.size(InjectedFault.SCALE_NOISY, place)
            : 1;
    double shown =
        stuck ? scales[place].stuck() : scales[place].read(loadG, air, tickH, noiseTimes);
    return silent(place) ? Double.NaN : shown;
  }

  boolean silent(int place) {
    return faults.holds(InjectedFault.SCALE_SILENT, place)
        || faults.holds(InjectedFault.SCALE_DEAD, place);
  }

  /** Gives a pass as the pump and valve really give it. */
  void deliver(Watering pass, long tick) {
    double flow = pumpFactor * (1 + 0.02 * random.nextGaussian());
    if (pass.toWaste()) {
      double wasteMl = tanks.draw(pass.plainMl() * flow, false);
      hose.push(wasteMl, 0);
      spilledMl += wasteMl;
      return;
    }
    if (faults.holds(InjectedFault.VALVE_CLOGGED, pass.cup())) {
      flow *= faults.size(InjectedFault.VALVE_CLOGGED, pass.cup());
    }
    double plainMl = tanks.draw(pass.plainMl() * flow, false);
    double feedMl = tanks.draw(pass.feedMl() * flow, true);
    double ml = plainMl + feedMl;
    double strength = throughHose(plainMl, feedMl);
    int cup = cupAt[pass.cup()];
    if (!present(cup, tick)) {
      spilledMl += ml;
    } else if (ml > 0) {
      give(cup, ml, strength);
    }
  }

  /** Plain water before feed, as the board gives it; mean strength of what leaves the drip end. */
  private double throughHose(double plainMl, double feedMl) {
    double ml = plainMl + feedMl;
    if (ml <= 0) {
      return 0;
    }
    double plain = hose.push(plainMl, 0);
    double feed = hose.push(feedMl, tanks.feedStrength());
    return (plainMl * plain + feedMl * feed) / ml;
  }

  private void give(int cup, double ml, double strength) {
    scene.cup(cup).give(ml, strength);
    unfedNMg += scene.cup(cup).stage().takesFeed() ? 0 : ml * strength * scene.labelNMgPerMl();
  }

  /** Nitrogen that the pump brought to cups whose true roots take no feed, mg. */
  double unfedNMg() {
    return unfedNMg;
  }

  /** A person puts right what is wrong at a place. */
  void mend(int place) {
    for (InjectedFault kind : InjectedFault.values()) {
      if (kind != InjectedFault.INFECTION) {
        faults.mend(kind, place);
      }
    }
    int other = cupAt[place];
    if (other != place) {
      cupAt[other] = other;
      cupAt[place] = place;
    }
  }

  boolean present(int cup, long tick) {
    return onBench[cup] && awayUntil[cup] <= tick;
  }

  /** The place at which a cup stands now, or -1 while it stands nowhere. */
  int placeOf(int cup) {
    if (!present(cup, now)) {
      return -1;
    }
    for (int place = 0; place < cupAt.length; place++) {
      if (cupAt[place] == cup) {
        return place;
      }
    }
    throw new IllegalStateException("cup " + cup + " has no place");
  }

  /** Whatever stands on one place is put on the other. */
  void swap(int place, int other) {
    int standing = cupAt[place];
    cupAt[place] = cupAt[other];
    cupAt[other] = standing;
  }

  /** A person leaves something that leans on what stands there. */
  void lean(int place, double grams, long untilTick) {
    leanG[place] = grams;
    leanUntil[place] = untilTick;
  }

  /** A person knocks at the scale there. */
  void bump(int place, double grams) {
    scales[place].bump(grams);
  }

  /** The cup that belongs on that scale just now, present or in somebody's hands. */
  int cupOn(int place) {
    return cupAt[place];
  }

  boolean swapped(int place) {
    return cupAt[place] != place;
  }

  boolean away(int cup, long tick) {
    return awayUntil[cup] > tick;
  }

  boolean returns(int cup, long tick) {
    return awayUntil[cup] == tick;
  }

  /** Whether the person said so who took it away last. */
  boolean awayTold(int cup) {
    return awayTold[cup];
  }

  /** Taken away without a word. */
  void takeAway(int cup, long untilTick) {
    takeAway(cup, untilTick, false);
  }

  void takeAway(int cup, long untilTick, boolean told) {
    awayUntil[cup] = untilTick;
    awayTold[cup] = told;
  }

  void remove(int cup) {
    onBench[cup] = false;
  }

  boolean[] onBench() {
    return onBench;
  }

  RootStage[] said() {
    return said;
  }

  Tanks tanks() {
    return tanks;
  }

  FaultPlan faults() {
    return faults;
  }

  /** Water pumped onto empty places, mL. */
  double spilledMl() {
    return spilledMl;
  }
}
