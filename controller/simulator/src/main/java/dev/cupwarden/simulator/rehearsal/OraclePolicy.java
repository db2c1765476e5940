package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.feeding.FeedStrength;
import dev.cupwarden.core.feeding.SaltBalance;
import dev.cupwarden.core.feeding.StageFeed;
import dev.cupwarden.core.setup.FeedingRules;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.setup.Window;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntUnaryOperator;

/**
 * Knows what is truly in each cup: waters by the same lines, window and passes as the bench asks
 * for, without error of estimate. What it cannot reach, no controller can.
 */
final class OraclePolicy implements Policy {
  /** Kept clear of the wet line, as a depletion. */
  private static final double WET_MARGIN = 0.04;

  private static final double LEAST_PASS_ML = 5;

  private final Scene scene;
  private final IntUnaryOperator placeOf;
  private final boolean[] refilling;
  private final Instant[] lastPass;
  private final Instant[] lastRefill;
  private final double[] strength;
  private final double[] lossMlPerH;
  private final double[] yesterdayMl;
  private final RootStage[] seen;
  private final Instant[] stageSince;
  private Instant yesterday;

  /** It sees where each cup stands; a place below 0 is none. */
  OraclePolicy(Scene scene, IntUnaryOperator placeOf) {
    this.scene = scene;
    this.placeOf = placeOf;
    this.refilling = new boolean[scene.count()];
    this.lastPass = new Instant[scene.count()];
    this.lastRefill = new Instant[scene.count()];
    this.strength = new double[scene.count()];
    this.lossMlPerH = new double[scene.count()];
    this.yesterdayMl = new double[scene.count()];
    this.seen = new RootStage[scene.count()];
    this.stageSince = new Instant[scene.count()];
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    learnLosses(readings.at());
    LocalTime clock = readings.at().atZone(scene.zone()).toLocalTime();
    boolean open =
        scene.bench().watering().window() instanceof Window.Hours hours
            ? !clock.isBefore(hours.from()) && clock.isBefore(hours.to())
            : clock.getHour() >= 8 && clock.getHour() < 16;
    List<Watering> passes = new ArrayList<>();
    for (int cup = 0; cup < scene.count(); cup++) {
      if (scene.cup(cup).alive() && placeOf.applyAsInt(cup) >= 0) {
        Watering pass = decide(cup, readings, open);
        if (pass != null) {
          passes.add(pass);
          lastPass[cup] = readings.at();
        }
      }
    }
    return Decision.watering(passes);
  }

  private Watering decide(int cup, RehearsalReadings readings, boolean open) {
    TrueCup truth = scene.cup(cup);
    RootStage stage = truth.stage();
    seeStage(cup, readings.at());
    StageLines lines = scene.lines(cup, stage);
    double wet = truth.depletionAtAir(scene.mix(cup).leastAir());
    double refill = Math.max(lines.refill(), wet + WET_MARGIN);
    double depletion = truth.depletion();
    double tomorrow = depletion + 24 * lossMlPerH[cup] / truth.availableMl();
    boolean due = open && (depletion > lines.due() || tomorrow > lines.dry());
    boolean begins = !refilling[cup] && (due || depletion > lines.dry());
    if (begins && depletion > refill) {
      refilling[cup] = true;
      strength[cup] = strength(cup, readings, stage, depletion - refill);
      lastRefill[cup] = readings.at();
    }
    double roomMl = (depletion - refill) * truth.availableMl();
    refilling[cup] &= roomMl >= LEAST_PASS_ML;
    Duration soak = scene.bench().watering().soak();
    boolean soaked = lastPass[cup] == null || !readings.at().isBefore(lastPass[cup].plus(soak));
    if (!refilling[cup] || !soaked) {
      return null;
    }
    double most = Math.min(scene.bench().watering().passMl(), truth.capacityMl() / 10);
    return scene.blend(placeOf.applyAsInt(cup), Math.min(most, roomMl), strength[cup], "due");
  }

  /**
   * By the same rule as the bench's own feed, with what is truly in the mix: stage, label spread
   * over its waterings, what the mix lacks, cool roots and salts.
   */
  private double strength(int cup, RehearsalReadings readings, RootStage stage, double refilled) {
    FeedingRules rules = scene.bench().feeding();
    if (!stage.takesFeed() || lastRefill[cup] == null) {
      return 0;
    }
    TrueCup truth = scene.cup(cup);
    Instant at = readings.at();
    double days = Duration.between(lastRefill[cup], at).toMinutes() / 1440.0;
    double refilledPart = Math.max(0.1, refilled);
    double target = rules.target().getOrDefault(stage, 0.0);
    double spread = FeedStrength.spread(target, days, scene.labelDays(), refilledPart);
    Duration interval = Duration.ofMinutes(Math.round(scene.labelDays() * 1440));
    StageFeed feed = StageFeed.at(rules, stage, stageSince[cup], at, interval);
    double own = feed.ofLabel(1000 * scene.labelNMgPerMl());
    double heldMl =
        scene.labelNMgPerMl() > 0 ? truth.balance().nHeldMg() / scene.labelNMgPerMl() : 0;
    double lacks = (own * truth.capacityMl() - heldMl) / (refilledPart * truth.availableMl());
    double cool =
        FeedStrength.coolRootsPart(readings.air().rootC(), scene.bench().climate().coldC());
    double ecMsPerCm = truth.ecAtCapacityMsPerCm();
    double strength =
        FeedStrength.of(feed, 1000 * scene.labelNMgPerMl())
            .lesser(FeedStrength.Cap.LABEL, spread, 0, 0)
            .lesser(FeedStrength.Cap.STOCK, lacks, 0, 0)
            .lesser(FeedStrength.Cap.COOL, cool * own, 0, 0)
            .lesser(FeedStrength.Cap.SALT, SaltBalance.feedPart(ecMsPerCm) * own, 0, 0)
            .atLeast(rules.floor(), own)
            .strength();
    return Math.min(rules.ceiling(), strength);
  }

  private void seeStage(int cup, Instant at) {
    RootStage stage = scene.cup(cup).stage();
    if (stage != seen[cup]) {
      seen[cup] = stage;
      stageSince[cup] = at;
    }
  }

  private void learnLosses(Instant at) {
    if (yesterday != null && Duration.between(yesterday, at).toHours() < 24) {
      return;
    }
    for (int cup = 0; cup < scene.count(); cup++) {
      double ml = scene.cup(cup).balance().waterOutMl() - scene.cup(cup).trayMl();
      lossMlPerH[cup] = yesterday == null ? 0 : (ml - yesterdayMl[cup]) / 24;
      yesterdayMl[cup] = ml;
    }
    yesterday = at;
  }
}
