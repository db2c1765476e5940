package dev.cupwarden.core.plants;

import java.time.Duration;
import java.time.Instant;

/**
 * How far a cutting without roots has come, by the warmth it had.
 *
 * @param days that it has stood, each worth what {@link RootingTime} says
 * @param lookedAt when a person last said that it has none, at an age at which it could; null where
 *     nobody did
 */
public record RootingClock(double days, Instant lookedAt) {
  /** Who looked and found none is not asked again sooner: our choice. */
  public static final Duration LOOK_AGAIN = Duration.ofDays(7);

  /** By so much a sum of thousands of ticks may fall short of a whole day. */
  private static final double ROUNDING_DAYS = 1e-6;

  /** Where its roots should be by now. */
  public enum Expected {
    NOTHING,
    /** The first of its kind have roots. */
    ROOTS_CAN_BE,
    /** The last of its kind have roots. */
    ROOTS_ARE_LATE
  }

  /**
   * As its cup is first seen. That it has no roots is then a person's word.
   *
   * @param daysBefore since it was struck; nobody knows how warm they were, and a day is a day
   */
  public static RootingClock begun(double daysBefore, RootingTime time, Instant at) {
    return new RootingClock(daysBefore, daysBefore >= time.days().least() ? at : null);
  }

  /** After so many days more. */
  public RootingClock plus(double more) {
    return new RootingClock(days + more, lookedAt);
  }

  /** After a person looked, and found none. */
  public RootingClock looked(Instant at) {
    return new RootingClock(days, at);
  }

  /** What a person should look for now. */
  public Expected expected(RootingTime time, Instant at) {
    if (lookedAt != null && at.isBefore(lookedAt.plus(LOOK_AGAIN))) {
      return Expected.NOTHING;
    }
    double counted = days + ROUNDING_DAYS;
    return counted >= time.days().most()
        ? Expected.ROOTS_ARE_LATE
        : counted >= time.days().least() ? Expected.ROOTS_CAN_BE : Expected.NOTHING;
  }
}
