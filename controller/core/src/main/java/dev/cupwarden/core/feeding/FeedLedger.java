package dev.cupwarden.core.feeding;

import dev.cupwarden.core.dosing.Given;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/** What a cup was fed within the last label interval, in label-equivalents. */
public final class FeedLedger {
  /** One full watering at the label's strength is all that the label allows in an interval. */
  public static final double MOST = 1.0;

  private FeedLedger() {}

  /**
   * Sum of strength x mL over the cup's available water, over all that was given less than {@code
   * interval} ago.
   */
  public static double fed(List<Given> given, Instant at, Duration interval, double availableMl) {
    double sum = 0.0;
    Instant oldest = at.minus(interval);
    for (Given one : given) {
      if (one.strength() > 0.0 && one.at().isAfter(oldest)) {
        sum += one.strength() * one.ml();
      }
    }
    return sum / availableMl;
  }

  /** The greatest strength that a pass may have without taking the ledger over. */
  public static double strengthLeft(double fed, double passMl, double availableMl) {
    return Math.max(0.0, (MOST - fed) * availableMl / passMl);
  }
}
