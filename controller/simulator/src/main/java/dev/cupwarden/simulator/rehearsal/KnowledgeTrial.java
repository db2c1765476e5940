package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import dev.cupwarden.core.substrate.CupWater;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;

/**
 * What the controller knows of the cups that it waters through a whole rehearsal, held against the
 * truth: every six hours how far its depletions are off by their own standard deviation, and when a
 * cup will have lost what it has lost a day later, where it gets no water meanwhile. A scale that
 * was knocked is off by as much a day later: that is the doubt of the depletion, not of a forecast.
 */
public final class KnowledgeTrial implements Policy {
  private static final int ASKED_EVERY_H = 6;
  private static final int AHEAD_H = 24;

  /** More than a breath of damp air brings in a tick, g. */
  private static final double WATERED_G = 0.5;

  private final CupwardenPolicy asked;
  private final Scene scene;
  private final Stand stand;
  private final EstimateScore score;
  private final ZoneId zone;
  private final double[] lastG;
  private final List<Question> open = new ArrayList<>();
  private long tick;

  private KnowledgeTrial(Scene scene, Stand stand, EstimateScore score) throws SetupException {
    this.asked = new CupwardenPolicy(scene.bench(), scene.names());
    this.scene = scene;
    this.stand = stand;
    this.score = score;
    this.zone = scene.zone();
    this.lastG = new double[scene.count()];
  }

  /**
   * @param truthG what the cup truly weighed then
   */
  private record Question(int cup, Instant at, double truthG, Forecast forecast) {}

  /**
   * One rehearsal.
   *
   * @throws SetupException where the controller refuses the bench
   */
  public static EstimateScore run(Rehearsal of, long seed) throws SetupException {
    EstimateScore score = new EstimateScore();
    of.run((scene, stand, drawn) -> new KnowledgeTrial(scene, stand, score), seed, day -> {});
    return score;
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    Decision decision = asked.decide(readings);
    Instant at = readings.at();
    for (int cup = 0; cup < scene.count(); cup++) {
      double massG = scene.cup(cup).grossG();
      int changed = cup;
      if (massG > lastG[cup] + WATERED_G || !inItsPlace(cup)) {
        open.removeIf(question -> question.cup == changed);
      }
      lastG[cup] = massG;
    }
    open.stream().filter(question -> due(question, at)).forEach(this::answer);
    open.removeIf(question -> due(question, at));
    long every = ASKED_EVERY_H * 3600L / scene.bench().tick().toSeconds();
    if (tick++ % every == 0) {
      for (int cup = 0; cup < scene.count(); cup++) {
        ask(cup, asked.state(), at);
      }
    }
    return decision;
  }

  private boolean inItsPlace(int cup) {
    return stand.cupOn(cup) == cup && stand.placeOf(cup) == cup && scene.cup(cup).alive();
  }

  private static boolean due(Question question, Instant at) {
    return !at.isBefore(question.at.plusSeconds(AHEAD_H * 3600L));
  }

  private void answer(Question question) {
    Forecast forecast = question.forecast;
    double lostG = question.truthG - scene.cup(question.cup).grossG();
    double targetG = forecast.massG() - lostG;
    boolean in =
        forecast.hoursTo(targetG, Forecast.Bound.EARLY) <= AHEAD_H
            && AHEAD_H <= forecast.hoursTo(targetG, Forecast.Bound.LATE);
    score.dayAhead(forecast.hoursTo(targetG, Forecast.Bound.LIKELY) - AHEAD_H, in);
  }

  private void ask(int cup, BenchState bench, Instant at) {
    CupState kept = bench.cups().get(scene.names().get(cup));
    if (kept == null || !inItsPlace(cup)) {
      return;
    }
    WeightFrame predicted = predicted(scene.bench(), kept.setup());
    EstimateState state = kept.weight().estimate();
    CupEstimate now = CupEstimate.at(state, predicted, at);
    if (!now.trusted() || kept.weight().misplaced().on() || kept.account().drift().told()) {
      return;
    }
    WeightFrame frame = state.frame(predicted);
    Instant since = kept.weight().weighing().knownSince();
    double sd = state.capacity().depletionSd(predicted, now.massG(), now.massSdG(), since, at);
    score.depletion(frame.depletion(now.massG()) - scene.cup(cup).depletion(), sd);
    if (now.rateKnown()) {
      double hour = at.atZone(zone).toLocalTime().toSecondOfDay() / 3600.0;
      Forecast forecast = Forecast.of(now.massG(), now, state, frame, OptionalDouble.empty(), hour);
      open.add(new Question(cup, at, scene.cup(cup).grossG(), forecast));
    }
  }

  private static WeightFrame predicted(Bench bench, Cup cup) {
    return WeightFrame.of(
        CupWater.of(
            bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup.cuttingG()));
  }
}
