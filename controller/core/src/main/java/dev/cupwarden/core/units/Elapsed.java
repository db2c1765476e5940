package dev.cupwarden.core.units;

import java.time.Instant;

/** Time between two instants, in the units of rates. */
public final class Elapsed {
  private Elapsed() {}

  /** Hours from one to the other, 0 if the second is not later: time never runs backwards here. */
  public static double hours(Instant from, Instant to) {
    double seconds =
        (double) (to.getEpochSecond() - from.getEpochSecond())
            + (to.getNano() - from.getNano()) * 1e-9;
    return Math.max(0, seconds / 3600);
  }

  /** The same in minutes. */
  public static double minutes(Instant from, Instant to) {
    return hours(from, to) * 60;
  }
}
