package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.simulator.physics.NominalCup;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/** A bench file brought to life: its cups in truth, and what the file foretells of them. */
final class Scene {
  private static final double USUAL_LABEL_DAYS = 14;

  private final Bench bench;
  private final List<String> names;
  private final List<Cup> entered = new ArrayList<>();
  private final List<Mix> mixes = new ArrayList<>();
  private final List<TrueCup> cups = new ArrayList<>();
  private final List<NominalCup> nominal = new ArrayList<>();
  private final StageLines[][] lines;
  private final Feed feed;
  private final double tankStrength;

  /** Of the first world. */
  Scene(Bench bench, long seed) {
    this(bench, World.FIRST, seed);
  }

  Scene(Bench bench, World world, long seed) {
    this.bench = bench;
    this.names = List.copyOf(bench.cups().keySet());
    this.tankStrength =
        bench.tanks().values().stream()
            .filter(tank -> tank.feed().isPresent() && tank.strength() > 0)
            .mapToDouble(tank -> tank.strength())
            .findFirst()
            .orElse(0);
    this.feed = bench.feeds().values().stream().findFirst().orElse(null);
    this.lines = new StageLines[names.size()][];
    SplittableRandom random = new SplittableRandom(seed);
    for (Cup cup : bench.cups().values()) {
      Mix mix = bench.mixes().get(cup.mix());
      var vessel = bench.vessels().get(cup.vessel());
      lines[entered.size()] =
          Arrays.stream(RootStage.values())
              .map(stage -> bench.linesOf(cup.withStage(stage)))
              .toArray(StageLines[]::new);
      entered.add(cup);
      mixes.add(mix);
      nominal.add(NominalCup.of(vessel, mix, cup));
      cups.add(world.cup(bench, cup, Optional.ofNullable(feed), random.nextLong()));
    }
  }

  Bench bench() {
    return bench;
  }

  /** Names of the cups, in order. */
  List<String> names() {
    return names;
  }

  int count() {
    return names.size();
  }

  List<TrueCup> cups() {
    return cups;
  }

  TrueCup cup(int cup) {
    return cups.get(cup);
  }

  NominalCup nominal(int cup) {
    return nominal.get(cup);
  }

  Mix mix(int cup) {
    return mixes.get(cup);
  }

  Cup entered(int cup) {
    return entered.get(cup);
  }

  StageLines lines(int cup, RootStage stage) {
    return lines[cup][stage.ordinal()];
  }

  ZoneId zone() {
    return bench.place().map(place -> place.zone()).orElse(ZoneOffset.UTC);
  }

  /** The label's interval in days. */
  double labelDays() {
    return feed == null ? USUAL_LABEL_DAYS : days(feed.labelEvery());
  }

  /** Nitrogen in one mL at the label's rate, mg. */
  double labelNMgPerMl() {
    return feed == null ? 0 : feed.nPct() / 100 * feed.labelGPerL();
  }

  /** A pass of that strength out of the two tanks; without a feed tank it is plain. */
  Watering blend(int cup, double ml, double strength, String why) {
    double part = tankStrength == 0 ? 0 : Math.min(1, strength / tankStrength);
    return new Watering(cup, ml * (1 - part), ml * part, part * tankStrength, why);
  }

  private static double days(Duration every) {
    return every.toMinutes() / 1440.0;
  }
}
