package dev.cupwarden.simulator.rehearsal;

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
  private static final double SALTY_MS_PER_CM = 2.6;

  private final Scene scene;
  private final IntUnaryOperator placeOf;
  private final boolean[] refilling;
  private final Instant[] lastPass;
  private final Instant[] lastRefill;
  private final double[] strength;
  private final double[] lossMlPerH;
  private final double[] yesterdayMl;
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
    StageLines lines = scene.lines(cup, stage);
    double wet = truth.depletionAtAir(scene.mix(cup).leastAir());
    double refill = Math.max(lines.refill(), wet + WET_MARGIN);
    double depletion = truth.depletion();
    double tomorrow = depletion + 24 * lossMlPerH[cup] / truth.availableMl();
    boolean due = open && (depletion > lines.due() || tomorrow > lines.dry());
    boolean begins = !refilling[cup] && (due || depletion > lines.dry());
    if (begins && depletion > refill) {
      refilling[cup] = true;
      strength[cup] = strength(cup, readings.at(), stage, depletion - refill);
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

  /** Target by stage over the label's interval, shared out by the cup's own interval and refill. */
  private double strength(int cup, Instant at, RootStage stage, double refilled) {
    double target = scene.bench().feeding().target().getOrDefault(stage, 0.0);
    boolean salty = scene.cup(cup).ecAtCapacityMsPerCm() > SALTY_MS_PER_CM;
    if (!stage.takesFeed() || salty || lastRefill[cup] == null) {
      return 0;
    }
    double days = Duration.between(lastRefill[cup], at).toMinutes() / 1440.0;
    double wanted = target * (days / scene.labelDays()) / Math.max(0.1, refilled);
    return Math.max(0, Math.min(scene.bench().feeding().ceiling(), wanted));
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
