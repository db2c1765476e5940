package dev.cupwarden.core.watering;

import dev.cupwarden.core.setup.RootStage;

/**
 * How fast a cup dries, before anything was learned of it: so many days from refill to due. Nearly
 * dry two to three days after a watering for a rooted cup in sun is common practice; the others are
 * our choice for a room.
 */
public final class PredictedUse {
  private PredictedUse() {}

  /** Days from the refill line to the due line. */
  public static double days(RootStage stage) {
    return switch (stage) {
      case STRUCK -> 10.0;
      case WHITE -> 7.0;
      case TOUGHENED -> 4.0;
      case CIRCLING -> 2.5;
    };
  }

  /** Loss, g/h. */
  public static double rateGPerH(RootStage stage, CupLines lines, double availableMl) {
    return (lines.due() - lines.refill()) * availableMl / (days(stage) * 24.0);
  }
}
