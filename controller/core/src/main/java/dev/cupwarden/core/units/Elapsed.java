package dev.cupwarden.core.units;

import java.time.Duration;
import java.time.Instant;

/** Time between two instants, in the units of rates and of messages. */
public final class Elapsed {
  private static final double MS_PER_S = 1_000;

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

  /** A length of time in seconds, to the millisecond, as messages carry it. */
  public static double seconds(Duration length) {
    return length.toMillis() / MS_PER_S;
  }

  /** The length of time that these seconds are, to the millisecond. */
  public static Duration ofSeconds(double seconds) {
    return Duration.ofMillis(Math.round(seconds * MS_PER_S));
  }

  /** Seconds since 1970, to the millisecond, as SenML (RFC 8428) and charts count them. */
  public static double epochSeconds(Instant at) {
    return epochSeconds(at.toEpochMilli());
  }

  /** The same of milliseconds since 1970. */
  public static double epochSeconds(long epochMs) {
    return epochMs / MS_PER_S;
  }

  /** The instant of these seconds since 1970, to the millisecond. */
  public static Instant atEpochSeconds(double seconds) {
    return Instant.ofEpochMilli(Math.round(seconds * MS_PER_S));
  }
}
