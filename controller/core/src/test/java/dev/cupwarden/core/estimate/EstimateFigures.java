package dev.cupwarden.core.estimate;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/**
 * Prints how well the estimator does on {@link BenchOfScales}: {@code EstimateFigures [seed]
 * [benches]}. Twelve cups a bench for four days; the first day is for learning, then one thing at a
 * time happens to some cup every three hours, so that it is clear what should have been found.
 */
public final class EstimateFigures {
  private static final int CUPS = 12;
  private static final int TICK_MIN = 5;
  private static final int DAYS = 4;

  /** What happened is to be found within this many ticks. */
  private static final int WITHIN_TICKS = 8;

  private final Estimator estimator = new Estimator(new EstimatorSettings(Duration.ofMinutes(5)));
  private final List<Double> massErrorsG = new ArrayList<>();
  private final List<Double> doseErrorsG = new ArrayList<>();
  private final List<Double> forecastErrors = new ArrayList<>();
  private final List<Double> coefficientErrors = new ArrayList<>();
  private final int[] asked = new int[Kind.values().length];
  private final int[] right = new int[Kind.values().length];
  private int dosesInLimit;
  private int inBounds;
  private int falseEvents;
  private long looks;
  private long trusted;

  private enum Kind {
    LIFT,
    HAND_WATERING,
    SWAP,
    NOTHING
  }

  /** The figures of that many benches. */
  public static void main(String[] args) {
    long seed = args.length > 0 ? Long.parseLong(args[0]) : 1;
    int benches = args.length > 1 ? Integer.parseInt(args[1]) : 40;
    EstimateFigures figures = new EstimateFigures();
    for (int bench = 0; bench < benches; bench++) {
      figures.bench(seed * 1000 + bench);
      figures.quiet(seed * 1000 + 500_000 + bench);
    }
    figures.print();
  }

  private final class Run {
    final BenchOfScales bench;
    final EstimateState[] states = new EstimateState[CUPS];
    final double[] orderedMl = new double[CUPS];
    final List<List<WeightEvent>> events = new ArrayList<>();
    List<SwapDetector.Swap> swaps = new ArrayList<>();
    SwapDetector.Found found = SwapDetector.Found.NOTHING;

    Run(long seed) {
      bench = new BenchOfScales(seed, CUPS);
      for (int i = 0; i < CUPS; i++) {
        states[i] = EstimateState.fresh();
        events.add(new ArrayList<>());
      }
    }

    void tick(boolean score) {
      for (int i = 0; i < TICK_MIN; i++) {
        bench.passMinute();
      }
      List<SwapDetector.Step> steps = new ArrayList<>();
      for (int i = 0; i < CUPS; i++) {
        BenchOfScales.Place place = bench.places.get(i);
        CupReading reading =
            new CupReading(
                bench.now(), bench.shownG(place), orderedMl[i], bench.vpdKpa(), bench.airC(), true);
        orderedMl[i] = 0;
        EstimateStep step = estimator.step(states[i], Cups.TALL, reading);
        states[i] = step.state();
        events.get(i).addAll(step.events());
        steps.addAll(SwapDetector.steps("cup" + i, step.events()));
        CupEstimate estimate = CupEstimate.at(states[i], Cups.TALL, bench.now());
        looks++;
        if (estimate.trusted()) {
          trusted++;
          if (score) {
            massErrorsG.add(Math.abs(estimate.massG() - place.plant.massG));
          }
        }
      }
      found = SwapDetector.look(found.recent(), steps, bench.now());
      swaps.addAll(found.swaps());
    }

    void forget() {
      events.forEach(List::clear);
      swaps.clear();
    }
  }

  private void bench(long seed) {
    Run run = new Run(seed);
    int episode = 0;
    for (int tick = 0; tick < DAYS * 288; tick++) {
      boolean learned = tick >= 288;
      if (learned && tick % 36 == 0) {
        run.forget();
        int cup = run.bench.withRoom(65);
        switch (episode++ % 5) {
          case 0, 3 -> tick += dose(run, cup);
          case 1 -> tick += lift(run, cup);
          case 2 -> tick += handWater(run, cup);
          default -> tick += swap(run, cup);
        }
      }
      run.tick(learned);
    }
    for (int i = 0; i < CUPS; i++) {
      coefficientErrors.add(
          Math.abs(run.states[i].filter().gPerC() - run.bench.places.get(i).driftGPerC));
    }
  }

  private int dose(Run run, int cup) {
    double orderedMl = run.bench.random.nextDouble(10, 30);
    double gainG = orderedMl * run.bench.random.nextDouble(0.9, 1);
    run.orderedMl[cup] = orderedMl;
    run.bench.water(run.bench.places.get(cup), gainG);
    run.tick(true);
    double seenG =
        run.events.get(cup).stream()
            .filter(WeightEvent.OwnDose.class::isInstance)
            .mapToDouble(event -> ((WeightEvent.OwnDose) event).gainG())
            .sum();
    double errorG = Math.abs(seenG - gainG);
    doseErrorsG.add(errorG);
    dosesInLimit += errorG <= 0.5 + 0.03 * gainG ? 1 : 0;
    return 1;
  }

  /** Off for 6 to 30 min, so that a look sees it; every second one is watered meanwhile. */
  private int lift(Run run, int cup) {
    BenchOfScales.Place place = run.bench.places.get(cup);
    int off = run.bench.random.nextInt(2, 7);
    double gainG = run.bench.random.nextBoolean() ? 0 : run.bench.random.nextDouble(20, 60);
    run.bench.lift(place);
    for (int i = 0; i < off; i++) {
      run.tick(true);
    }
    run.bench.water(place, gainG);
    run.bench.putBack(place);
    settle(run);
    List<WeightEvent> events = run.events.get(cup);
    boolean seen =
        events.size() == 2
            && events.get(0) instanceof WeightEvent.Lifted
            && events.get(1) instanceof WeightEvent.Returned returned
            && Math.abs(returned.changeG() - gainG) < 2;
    judge(run, Kind.LIFT, seen && run.swaps.isEmpty(), cup, cup);
    return off + WITHIN_TICKS;
  }

  private int handWater(Run run, int cup) {
    double gainG = run.bench.random.nextDouble(10, 60);
    run.bench.water(run.bench.places.get(cup), gainG);
    settle(run);
    List<WeightEvent> events = run.events.get(cup);
    boolean seen =
        events.size() == 1
            && events.get(0) instanceof WeightEvent.HandWatering watering
            && Math.abs(watering.gainG() - gainG) < 2;
    judge(run, Kind.HAND_WATERING, seen && run.swaps.isEmpty(), cup, cup);
    return WITHIN_TICKS;
  }

  /** Cups that differ by more than 5 g; every second time a look finds both in the hands. */
  private int swap(Run run, int cup) {
    int other = (cup + 1 + run.bench.random.nextInt(CUPS - 1)) % CUPS;
    BenchOfScales.Place one = run.bench.places.get(cup);
    BenchOfScales.Place two = run.bench.places.get(other);
    if (Math.abs(one.plant.massG - two.plant.massG) <= 5) {
      return 0;
    }
    boolean seenOff = run.bench.random.nextBoolean();
    if (seenOff) {
      run.bench.lift(one);
      run.bench.lift(two);
      run.tick(true);
      run.bench.swap(one, two);
      run.bench.putBack(one);
      run.bench.putBack(two);
    } else {
      run.bench.swap(one, two);
    }
    settle(run);
    judge(run, Kind.SWAP, run.swaps.size() == 1, cup, other);
    return WITHIN_TICKS + (seenOff ? 1 : 0);
  }

  private void settle(Run run) {
    for (int i = 0; i < WITHIN_TICKS; i++) {
      run.tick(true);
    }
  }

  private void judge(Run run, Kind kind, boolean seen, int cup, int other) {
    asked[kind.ordinal()]++;
    right[kind.ordinal()] += seen ? 1 : 0;
    for (int i = 0; i < CUPS; i++) {
      if (i != cup && i != other) {
        falseEvents += run.events.get(i).size();
      }
    }
  }

  /** Nothing happens for five days: false alarms, and forecasts of 4 to 36 h made from day 2 on. */
  private void quiet(long seed) {
    Run run = new Run(seed);
    List<Asked> open = new ArrayList<>();
    for (int tick = 0; tick < 5 * 288; tick++) {
      run.tick(false);
      open.removeIf(forecast -> forecast.answered(run));
      if (tick >= 2 * 288 && tick < 3 * 288 && tick % 24 == 0) {
        for (int i = 0; i < CUPS; i++) {
          open.add(new Asked(run, i, run.bench.random.nextDouble(4, 36)));
        }
      }
    }
    for (List<WeightEvent> events : run.events) {
      asked[Kind.NOTHING.ordinal()]++;
      right[Kind.NOTHING.ordinal()] += events.isEmpty() ? 1 : 0;
    }
  }

  /** A forecast that waits for its truth; the mean VPD until about then is given. */
  private final class Asked {
    private final int cup;
    private final double askedMinute;
    private final double targetG;
    private final Forecast forecast;

    Asked(Run run, int cup, double horizonH) {
      this.cup = cup;
      askedMinute = run.bench.minute;
      CupEstimate estimate = CupEstimate.at(run.states[cup], Cups.TALL, run.bench.now());
      BenchOfScales.Plant plant = run.bench.places.get(cup).plant;
      double vpd = run.bench.meanVpdKpa(horizonH);
      targetG = plant.massG - (plant.gPerHPerKpa * vpd + plant.lightGPerH / 2) * horizonH;
      forecast = Forecast.to(targetG, estimate, run.states[cup], OptionalDouble.of(vpd));
    }

    boolean answered(Run run) {
      if (run.bench.places.get(cup).plant.massG > targetG) {
        return false;
      }
      double hours = (run.bench.minute - askedMinute) / 60;
      forecastErrors.add(Math.abs(forecast.hours() - hours) / hours);
      inBounds += forecast.lowHours() <= hours && hours <= forecast.highHours() ? 1 : 0;
      return true;
    }
  }

  private void print() {
    say("trusted looks                      %.2f %%", 100.0 * trusted / looks);
    say(
        "mass error, trusted: within 0.5 g  %.2f %% (wanted 95), median %.3f g, 95 %% %.3f g",
        100.0 * massErrorsG.stream().filter(e -> e <= 0.5).count() / massErrorsG.size(),
        quantile(massErrorsG, 0.5),
        quantile(massErrorsG, 0.95));
    for (Kind kind : Kind.values()) {
      say(
          "%-34s %.2f %% of %d told right (wanted 95)",
          kind.name().toLowerCase(Locale.ROOT).replace('_', ' '),
          100.0 * right[kind.ordinal()] / asked[kind.ordinal()],
          asked[kind.ordinal()]);
    }
    say("events at cups nothing happened to %d", falseEvents);
    say(
        "own doses within 0.5 g + 3 %%       %.2f %% of %d, 95 %% within %.3f g",
        100.0 * dosesInLimit / doseErrorsG.size(), doseErrorsG.size(), quantile(doseErrorsG, 0.95));
    say(
        "forecast error / horizon, median   %.4f (wanted 0.1), 90 %% %.4f; in 80 %% bounds %.1f %% of %d",
        quantile(forecastErrors, 0.5),
        quantile(forecastErrors, 0.9),
        100.0 * inBounds / forecastErrors.size(),
        forecastErrors.size());
    say(
        "temperature coefficient error      median %.4f g/°C (drawn from 0.02 to 0.1)",
        quantile(coefficientErrors, 0.5));
  }

  private static double quantile(List<Double> values, double part) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).toArray();
    Arrays.sort(sorted);
    return sorted[(int) Math.min(sorted.length - 1, Math.floor(part * sorted.length))];
  }

  private static void say(String format, Object... values) {
    System.out.println(String.format(Locale.ROOT, format, values));
  }
}
