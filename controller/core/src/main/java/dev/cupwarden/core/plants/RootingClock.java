package dev.cupwarden.core.plants;

import java.time.Duration;
import java.time.Instant;

/**
 * How far a cutting without roots has come, by the warmth it had.
 *
 * @param days that it has stood, each worth what {@link RootingTime} says
 * @param lookedAt when a person last said that it has none, at an age at which it could; null where
 *     nobody did
 * @param noneAtDays how far it had come when a person last said that it has none; 0 in an older
 *     journal
 * @param risenAtDays how far it had come when its use was first seen to rise since then; 0 where it
 *     was not
 * @param pace what a day was worth lately, as a mean that fades over {@link #PACE_DAYS}; 0 in an
 *     older journal, until those have passed
 */
public record RootingClock(
    double days, Instant lookedAt, double noneAtDays, double risenAtDays, double pace) {
  /** Who looked and found none is not asked again sooner: our choice. */
  public static final Duration LOOK_AGAIN = Duration.ofDays(7);

  /** A room is as warm tomorrow as it was over some days: our choice. */
  static final double PACE_DAYS = 3.0;

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
    return new RootingClock(
        daysBefore, daysBefore >= time.days().least() ? at : null, daysBefore, 0.0, 1.0);
  }

  /**
   * After some more time.
   *
   * @param passed days by the calendar
   * @param worth days at the table's warmth that one of them is worth
   */
  public RootingClock plus(double passed, double worth) {
    double step = 1.0 - Math.exp(-passed / PACE_DAYS);
    return new RootingClock(
        days + passed * worth, lookedAt, noneAtDays, risenAtDays, pace + step * (worth - pace));
  }

  /** After a person looked, and found none: what it used until then was not by roots. */
  public RootingClock looked(Instant at) {
    return new RootingClock(days, at, days, 0.0, pace);
  }

  /** Its use has risen; who looked and found none lately has seen why not. */
  public RootingClock risen(Instant at) {
    return risenAtDays > 0.0 || seenLately(at)
        ? this
        : new RootingClock(days, lookedAt, noneAtDays, days, pace);
  }

  private boolean seenLately(Instant at) {
    return lookedAt != null && at.isBefore(lookedAt.plus(LOOK_AGAIN));
  }

  /** What a person should look for now. */
  public Expected expected(RootingTime time, Instant at) {
    if (seenLately(at)) {
      return Expected.NOTHING;
    }
    double counted = days + ROUNDING_DAYS;
    return counted >= time.days().most()
        ? Expected.ROOTS_ARE_LATE
        : counted >= time.days().least() ? Expected.ROOTS_CAN_BE : Expected.NOTHING;
  }
}
