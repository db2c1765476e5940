package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.estimate.CupEstimate;
import dev.cupwarden.core.estimate.CupReading;
import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.EstimateStep;
import dev.cupwarden.core.estimate.Estimator;
import dev.cupwarden.core.estimate.EstimatorSettings;
import dev.cupwarden.core.estimate.Forecast;
import dev.cupwarden.core.estimate.LightKnown;
import dev.cupwarden.core.estimate.SwapDetector;
import dev.cupwarden.core.estimate.WeightEvent;
import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.substrate.CupWater;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.rehearsal.EstimateScore.Happening;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

/**
 * The estimator on the simulator's cups, scales and faults, in a room that goes from 15 to 25 °C
 * and back each day. The first two days are for learning; then, every three hours, a person lifts a
 * cup, waters one by hand or swaps two, and the trial itself waters what has dried, by the pump.
 */
public final class EstimateTrial {
  private static final int LEARNING_DAYS = 2;
  private static final int HAPPENING_MIN = 180;
  private static final double DUE_DEPLETION = 0.5;
  private static final double LARGEST_PASS_ML = 30;
  private static final int SOAK_MIN = 30;

  /** Cups that differ by less are not swapped: nobody could tell them apart by weight. */
  private static final double SWAP_APART_G = 5;

  /** What happened is to be told within this time. */
  private static final int TOLD_WITHIN_MIN = 40;

  private final Scene scene;
  private final Stand stand;
  private final Estimator estimator;
  private final SplittableRandom random;
  private final EstimateScore score = new EstimateScore();
  private final WeightFrame[] frames;
  private final EstimateState[] states;
  private final double[] orderedMl;
  private final List<List<WeightEvent>> events = new ArrayList<>();
  private final List<SwapDetector.Swap> swaps = new ArrayList<>();
  private final List<Question> questions = new ArrayList<>();
  private final long[] disturbedTick;
  private final Instant start;
  private final int days;
  private final int tickMin;
  private SwapDetector.Found found = SwapDetector.Found.NOTHING;
  private long tick;

  private EstimateTrial(Rehearsal of, long seed) {
    SplittableRandom seeds = new SplittableRandom(seed);
    Bench bench = of.bench();
    this.scene = new Scene(bench, of.world(), seeds.nextLong());
    this.days = of.days();
    this.stand = new Stand(scene, of.world(), of.faults(), days, seeds.nextLong());
    this.random = seeds.split();
    this.start = of.start();
    this.tickMin = (int) Math.max(1, bench.tick().toMinutes());
    this.estimator = new Estimator(new EstimatorSettings(bench.tick()));
    int count = scene.count();
    this.frames = new WeightFrame[count];
    this.states = new EstimateState[count];
    this.orderedMl = new double[count];
    this.disturbedTick = new long[count];
    for (int i = 0; i < count; i++) {
      frames[i] = frame(bench, scene.entered(i));
      states[i] = EstimateState.fresh();
      events.add(new ArrayList<>());
    }
  }

  /**
   * One trial.
   *
   * @param of bench, days (more than two), faults and world; {@link FaultLevel#ALL} moves cups on
   *     its own, which this trial would take for the estimator's invention
   */
  public static EstimateScore run(Rehearsal of, long seed) {
    EstimateTrial trial = new EstimateTrial(of, seed);
    trial.run();
    return trial.score;
  }

  private static WeightFrame frame(Bench bench, Cup cup) {
    return WeightFrame.of(
        CupWater.of(
            bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup.cuttingG()));
  }

  private void run() {
    long ticksADay = 1440L / tickMin;
    long lastTick = days * ticksADay;
    long everyTicks = Math.max(1, HAPPENING_MIN / tickMin);
    long nextHappening = LEARNING_DAYS * ticksADay;
    while (tick < lastTick) {
      if (tick >= nextHappening) {
        nextHappening = tick + everyTicks;
        happen();
      } else {
        pass();
      }
    }
  }

  private boolean learned() {
    return tick >= LEARNING_DAYS * 1440L / tickMin;
  }

  private void happen() {
    events.forEach(List::clear);
    swaps.clear();
    int cup = random.nextInt(scene.count());
    switch (random.nextInt(3)) {
      case 0 -> lift(cup);
      case 1 -> waterByHand(cup);
      default -> swap(cup);
    }
  }

  /** Off for 10 to 30 min, so that a look sees it; every second one is watered meanwhile. */
  private void lift(int cup) {
    int offTicks = Math.max(1, random.nextInt(10, 31) / tickMin);
    disturb(cup);
    stand.takeAway(cup, tick + 1 + offTicks);
    double wateredG = random.nextBoolean() ? canFor(cup) : 0;
    for (int i = 0; i < offTicks; i++) {
      pass();
    }
    double beforeG = scene.cup(cup).grossG();
    scene.cup(cup).give(wateredG, 0);
    pass();
    double gainG = scene.cup(cup).grossG() - beforeG;
    waitForWord();
    List<WeightEvent> seen = events.get(cup);
    boolean right =
        seen.size() == 2
            && seen.get(0) instanceof WeightEvent.Lifted
            && seen.get(1) instanceof WeightEvent.Returned returned
            && Math.abs(returned.changeG() - gainG) < 2;
    judge(Happening.LIFT, right && swaps.isEmpty(), cup, cup);
  }

  private void waterByHand(int cup) {
    disturb(cup);
    double beforeG = scene.cup(cup).grossG();
    double ml = canFor(cup);
    if (ml == 0) {
      pass();
      return;
    }
    scene.cup(cup).give(ml, 0);
    pass();
    double gainG = scene.cup(cup).grossG() - beforeG;
    waitForWord();
    List<WeightEvent> seen = events.get(cup);
    boolean right =
        seen.size() == 1
            && seen.get(0) instanceof WeightEvent.HandWatering watering
            && Math.abs(watering.gainG() - gainG) < 2;
    judge(Happening.HAND_WATERING, right && swaps.isEmpty(), cup, cup);
  }

  /** What a person with a can gives: 10 to 60 mL, short of draining; 0 where there is no room. */
  private double canFor(int cup) {
    double roomMl = scene.cup(cup).capacityMl() - scene.cup(cup).waterMl();
    double mostMl = Math.min(60, roomMl);
    return mostMl <= 10 ? 0 : random.nextDouble(10, mostMl);
  }

  /** Every second time a look finds both in the hands; put back in their own places thereafter. */
  private void swap(int cup) {
    int other = (cup + 1 + random.nextInt(scene.count() - 1)) % scene.count();
    double apartG = Math.abs(scene.cup(cup).grossG() - scene.cup(other).grossG());
    if (apartG <= SWAP_APART_G) {
      pass();
      return;
    }
    boolean seenOff = random.nextBoolean();
    for (int there = 0; there < 2; there++) {
      events.forEach(List::clear);
      swaps.clear();
      disturb(cup);
      disturb(other);
      if (seenOff) {
        stand.takeAway(cup, tick + 2);
        stand.takeAway(other, tick + 2);
        pass();
      }
      stand.swap(cup, other);
      pass();
      waitForWord();
      judge(Happening.SWAP, swaps.size() == 1, cup, other);
    }
  }

  private void waitForWord() {
    for (int waitedMin = 0; waitedMin < TOLD_WITHIN_MIN; waitedMin += tickMin) {
      pass();
    }
  }

  private void judge(Happening what, boolean right, int cup, int other) {
    score.happened(what, right);
    for (int i = 0; i < scene.count(); i++) {
      if (i != cup && i != other) {
        long invented =
            events.get(i).stream()
                .filter(event -> !(event instanceof WeightEvent.OwnDose))
                .filter(event -> !(event instanceof WeightEvent.Drained))
                .count();
        score.invented((int) invented);
      }
    }
  }

  private void disturb(int cup) {
    disturbedTick[cup] = tick;
  }

  /** One tick: the pump, then time, then a look at every cup. */
  private void pass() {
    double[] beforeG = new double[scene.count()];
    for (int i = 0; i < scene.count(); i++) {
      beforeG[i] = scene.cup(i).grossG();
      if (learned() && quiet(i) && scene.cup(i).depletion() > DUE_DEPLETION) {
        dose(i);
      }
    }
    RoomAir air = air();
    scene.cups().forEach(cup -> cup.advance(tickMin * 60.0, air));
    tick++;
    stand.reach(tick);
    double[] shownG = stand.weigh(tick, air);
    List<SwapDetector.Step> steps = new ArrayList<>();
    for (int place = 0; place < scene.count(); place++) {
      look(place, shownG[place], air, beforeG[place]);
      List<WeightEvent> all = events.get(place);
      steps.addAll(SwapDetector.steps(scene.names().get(place), newEvents(all)));
    }
    found = SwapDetector.look(found.recent(), steps, now());
    swaps.addAll(found.swaps());
    answer();
    ask();
  }

  private List<WeightEvent> newEvents(List<WeightEvent> all) {
    return all.stream().filter(event -> event.at().equals(now())).toList();
  }

  private void look(int place, double shownG, RoomAir air, double beforeG) {
    CupReading reading =
        new CupReading(
            now(),
            shownG,
            orderedMl[place],
            air.vpdKpa(),
            air.airC(),
            new LightKnown(air.lightUmolPerM2S(), Double.NaN, hour()),
            true);
    EstimateStep step = estimator.step(states[place], frames[place], reading);
    states[place] = step.state();
    events.get(place).addAll(step.events());
    CupEstimate estimate = CupEstimate.at(states[place], frames[place], now());
    int standing = stand.cupOn(place);
    if (learned()) {
      score.look(estimate.trusted(), estimate.massG() - scene.cup(standing).grossG());
    }
    if (learned() && estimate.trusted() && standing == place && tick % (360 / tickMin) == 0) {
      depletion(place, estimate);
    }
    if (orderedMl[place] > 0 && !Double.isNaN(shownG)) {
      double seenG =
          step.events().stream()
              .filter(WeightEvent.OwnDose.class::isInstance)
              .mapToDouble(event -> ((WeightEvent.OwnDose) event).gainG())
              .sum();
      score.dose(scene.cup(place).grossG() - beforeG, seenG);
    }
    orderedMl[place] = 0;
  }

  private void depletion(int cup, CupEstimate estimate) {
    double sd =
        states[cup]
            .capacity()
            .depletionSd(frames[cup], estimate.massG(), estimate.massSdG(), start, now());
    double told = states[cup].frame(frames[cup]).depletion(estimate.massG());
    score.depletion(told - scene.cup(cup).depletion(), sd);
  }

  /** A cup to which nothing is happening, so that a rise is the dose and nothing else. */
  private boolean quiet(int cup) {
    boolean trusted = CupEstimate.at(states[cup], frames[cup], now()).trusted();
    return trusted && stand.present(cup, tick + 1) && tick - disturbedTick[cup] > 60 / tickMin;
  }

  private void dose(int cup) {
    if (stand.swapped(cup) || tick % (SOAK_MIN / tickMin) != 0) {
      return;
    }
    double roomMl = (scene.cup(cup).depletion() - 0.1) * scene.cup(cup).availableMl();
    double ml = Math.min(LARGEST_PASS_ML, roomMl);
    stand.deliver(new Watering(cup, ml, 0, 0, "due"), tick);
    orderedMl[cup] = ml;
    questions.removeIf(question -> question.cup == cup);
  }

  private Instant now() {
    return start.plusSeconds(tick * tickMin * 60);
  }

  private double hour() {
    return tick * tickMin / 60.0 % 24;
  }

  /** 20 °C and 5 °C either way, warmest in mid afternoon, with the same vapour all day. */
  private RoomAir air() {
    double hour = hour();
    double airC = 20 + 5 * StrictMath.cos(2 * Math.PI * (hour - 15) / 24);
    double rhPct = 100 * 1.0 / RoomAir.saturationKpa(airC);
    double light = hour >= 8 && hour < 20 ? 90 : 0;
    return RoomAir.of(airC, rhPct, airC - 0.7, light);
  }

  /** When will a cup weigh so much? Asked now, and answered when it does. */
  private final class Question {
    private final int cup;
    private final long askedTick = tick;
    private final double askedHour = hour();
    private final long horizonTicks;
    private final EstimateState state;
    private final CupEstimate estimate;

    Question(int cup, CupEstimate estimate, long horizonTicks) {
      this.cup = cup;
      this.state = states[cup];
      this.estimate = estimate;
      this.horizonTicks = horizonTicks;
    }

    boolean due() {
      return tick - askedTick >= horizonTicks;
    }

    boolean spoilt() {
      return disturbedTick[cup] >= askedTick;
    }

    void answer() {
      Forecast forecast =
          Forecast.of(
              estimate.massG(),
              estimate,
              state,
              state.frame(frames[cup]),
              OptionalDouble.empty(),
              askedHour);
      double targetG = scene.cup(cup).grossG();
      double hours = horizonTicks * tickMin / 60.0;
      boolean dayAhead = horizonTicks == 1440L / tickMin;
      boolean in =
          forecast.hoursTo(targetG, Forecast.Bound.EARLY) <= hours
              && hours <= forecast.hoursTo(targetG, Forecast.Bound.LATE);
      double likely = forecast.hoursTo(targetG, Forecast.Bound.LIKELY);
      if (dayAhead) {
        score.dayAhead(likely - hours, in);
      } else {
        score.forecast(hours, likely, in);
      }
    }
  }

  private void ask() {
    if (!learned() || tick % (120 / tickMin) != 0) {
      return;
    }
    for (int cup = 0; cup < scene.count(); cup++) {
      CupEstimate estimate = CupEstimate.at(states[cup], frames[cup], now());
      if (estimate.trusted() && !stand.swapped(cup)) {
        long horizon = random.nextLong(4L * 60 / tickMin, 36L * 60 / tickMin);
        questions.add(new Question(cup, estimate, horizon));
        questions.add(new Question(cup, estimate, 1440L / tickMin));
      }
    }
  }

  private void answer() {
    questions.removeIf(Question::spoilt);
    questions.stream().filter(Question::due).forEach(Question::answer);
    questions.removeIf(Question::due);
  }
}
