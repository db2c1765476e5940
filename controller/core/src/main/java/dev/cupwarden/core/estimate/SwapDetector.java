package dev.cupwarden.core.estimate;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Which two cups changed places: each now weighs what the other should.
 *
 * <p>A swap always makes one cup fall, which watering never does; so one rise and one fall of the
 * same size, crosswise, within half an hour of one another, are a swap. Two scales of which one was
 * knocked since it was set to zero disagree on the same cup by more than either errs: then one cup
 * seems to gain what the other seems to lose, so that their sum still stands. Where the cups differ
 * by far more than what may have been put on or taken off with the exchange, neither need fit
 * closely. Cups closer to one another than the least difference cannot be told apart by weight, and
 * watering one as the other does little harm.
 */
public final class SwapDetector {
  /** Cups that differ by less look alike, g. */
  public static final double LEAST_DIFFERENCE_G = 4;

  /** Scales disagree on the same cup by so much: calibration and temperature, g. */
  private static final double LEAST_TOLERANCE_G = 1.5;

  private static final double TOLERANCE_PART = 0.005;

  /** By so much the knocks of a winter may put two scales' zeros apart: our choice, g. */
  private static final double MOST_APART_ZEROS_G = 25;

  /** And by no more than this part of what tells the cups apart: our choice. */
  private static final double ZEROS_PART_OF_DIFFERENCE = 0.25;

  /** A dome, a label or a saucer may be put on or taken off with the exchange: our choice, g. */
  private static final double MOST_BESIDES_G = 15;

  /** And no more than this part of what tells the cups apart: our choice. */
  private static final double BESIDES_PART_OF_DIFFERENCE = 0.1;

  private static final Duration TOGETHER = Duration.ofMinutes(30);

  private SwapDetector() {}

  /**
   * A step of one cup's weight that no order explains.
   *
   * @param cup its name
   * @param beforeG what it should weigh, g
   * @param afterG what it weighs, g
   */
  public record Step(String cup, Instant at, double beforeG, double afterG) {

    /** That event as a step, or null if it can be no part of a swap. */
    static Step of(String cup, WeightEvent event) {
      if (event instanceof WeightEvent.Returned returned) {
        return new Step(
            cup, returned.at(), returned.beforeG(), returned.beforeG() + returned.changeG());
      }
      if (event instanceof WeightEvent.HandWatering rise) {
        return new Step(cup, rise.at(), rise.beforeG(), rise.beforeG() + rise.gainG());
      }
      if (event instanceof WeightEvent.Exchanged exchange) {
        return new Step(cup, exchange.at(), exchange.beforeG(), exchange.afterG());
      }
      return null;
    }
  }

  /**
   * Two cups that changed places.
   *
   * @param one the step of one
   * @param other and that of the other
   */
  public record Swap(Instant at, Step one, Step other) {}

  /**
   * What was found.
   *
   * @param recent steps that may still meet their counterpart; keep and hand in with the next tick
   */
  public record Found(List<Step> recent, List<Swap> swaps) {
    /** Nothing seen yet. */
    public static final Found NOTHING = new Found(List.of(), List.of());
  }

  /** The steps of one cup's events, to be handed to {@link #look}. */
  public static List<Step> steps(String cup, List<WeightEvent> events) {
    if (events.isEmpty()) {
      return List.of();
    }
    List<Step> steps = new ArrayList<>();
    for (WeightEvent event : events) {
      Step step = Step.of(cup, event);
      if (step != null) {
        steps.add(step);
      }
    }
    return steps;
  }

  /** The swaps that this tick's steps make out, given those of the last half hour. */
  public static Found look(List<Step> recent, List<Step> news, Instant now) {
    if (recent.isEmpty() && news.isEmpty()) {
      return Found.NOTHING;
    }
    List<Step> open = new ArrayList<>();
    for (Step step : recent) {
      if (Duration.between(step.at(), now).compareTo(TOGETHER) <= 0) {
        open.add(step);
      }
    }
    open.addAll(news);
    List<Swap> swaps = new ArrayList<>();
    List<Pair> pairs = pairs(open);
    pairs.sort(Comparator.comparingDouble(Pair::missG).thenComparing(p -> p.one().cup()));
    for (Pair pair : pairs) {
      if (open.contains(pair.one()) && open.contains(pair.other())) {
        swaps.add(new Swap(now, pair.one(), pair.other()));
        open.remove(pair.one());
        open.remove(pair.other());
      }
    }
    return new Found(List.copyOf(open), List.copyOf(swaps));
  }

  private record Pair(Step one, Step other, double missG) {}

  /** Every crosswise match among the steps. */
  private static List<Pair> pairs(List<Step> open) {
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < open.size(); i++) {
      for (int j = i + 1; j < open.size(); j++) {
        Step one = open.get(i);
        Step other = open.get(j);
        double gainsG = one.afterG() - other.beforeG();
        double losesG = other.afterG() - one.beforeG();
        double missG = Math.max(Math.abs(gainsG), Math.abs(losesG));
        double toleranceG =
            Math.max(LEAST_TOLERANCE_G, TOLERANCE_PART * Math.max(one.beforeG(), other.beforeG()));
        double differenceG = Math.abs(one.beforeG() - other.beforeG());
        double zerosG = Math.min(MOST_APART_ZEROS_G, ZEROS_PART_OF_DIFFERENCE * differenceG);
        double besidesG = Math.min(MOST_BESIDES_G, BESIDES_PART_OF_DIFFERENCE * differenceG);
        boolean byZeros = missG <= zerosG && Math.abs(gainsG + losesG) <= toleranceG;
        boolean crosswise = missG <= Math.max(toleranceG, besidesG) || byZeros;
        boolean apart = differenceG >= LEAST_DIFFERENCE_G;
        boolean twoCups = !one.cup().equals(other.cup());
        boolean opposite = (one.afterG() > one.beforeG()) != (other.afterG() > other.beforeG());
        if (twoCups && apart && opposite && crosswise) {
          pairs.add(new Pair(one, other, missG));
        }
      }
    }
    return pairs;
  }
}
