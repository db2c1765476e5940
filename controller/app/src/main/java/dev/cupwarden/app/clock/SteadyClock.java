package dev.cupwarden.app.clock;

import java.time.Duration;
import java.time.Instant;

/**
 * The time that goes into the journal: it never stands still or goes back, and it follows the wall
 * clock only as long as that goes as monotonic time does. After a jump of the wall clock it goes on
 * by monotonic time alone and says that it is not trusted, until the wall clock agrees again or a
 * person has looked.
 */
public final class SteadyClock {
  /** Our choice: what a time server corrects in small steps; more is a jump. */
  public static final double JUMP_S = 120;

  /** Our choice: a machine that was off for longer needs a person to say what time it is. */
  private static final Duration LONGEST_ABSENCE = Duration.ofDays(14);

  private static final Duration LEAST_STEP = Duration.ofMillis(1);

  private final BenchTime time;
  private Instant anchor;
  private long anchorNanos;

  /** The least that the next answer may be. */
  private Instant soonest;

  private boolean trusted = true;

  /** The machine started without the time; the first one that is plausible is believed. */
  private boolean waitingForTime;

  private SteadyClock(BenchTime time, Instant anchor) {
    this.time = time;
    this.anchor = anchor;
    this.soonest = anchor;
    this.anchorNanos = time.nanos();
  }

  /** For a bench that has never run. */
  public static SteadyClock fresh(BenchTime time) {
    return new SteadyClock(time, time.wall());
  }

  /**
   * For a bench that was last seen at a time; a wall clock that shows an earlier one, as a board
   * without a battery does before it has heard a time server, is not trusted.
   */
  public static SteadyClock after(Instant last, BenchTime time) {
    Instant wall = time.wall();
    if (wall.isAfter(last)) {
      return new SteadyClock(time, wall);
    }
    SteadyClock clock = new SteadyClock(time, last.plus(LEAST_STEP));
    clock.trusted = false;
    clock.waitingForTime = true;
    return clock;
  }

  /** The time now; later than any before. */
  public Instant now() {
    long nanos = time.nanos();
    Instant steady = anchor.plusNanos(nanos - anchorNanos);
    Instant wall = time.wall();
    if (waitingForTime && wall.isAfter(steady) && wall.isBefore(steady.plus(LONGEST_ABSENCE))) {
      acceptWall();
      return answer(anchor);
    }
    boolean agrees = Duration.between(steady, wall).abs().toMillis() <= JUMP_S * 1000;
    trusted = agrees;
    anchorNanos = nanos;
    return answer(agrees ? wall : steady);
  }

  private Instant answer(Instant now) {
    anchor = now.isBefore(soonest) ? soonest : now;
    soonest = anchor.plus(LEAST_STEP);
    return anchor;
  }

  /** Whether the wall clock went with monotonic time when last asked. */
  public boolean trusted() {
    return trusted;
  }

  /** What the wall clock shows beyond this clock, seconds. */
  public double aheadS() {
    return Duration.between(anchor.plusNanos(time.nanos() - anchorNanos), time.wall()).toMillis()
        / 1000.0;
  }

  /**
   * A person has looked at the wall clock and found it right: it is followed again where that does
   * not mean to go back.
   */
  public void acceptWall() {
    Instant wall = time.wall();
    if (wall.isAfter(anchor)) {
      anchor = wall;
      anchorNanos = time.nanos();
      trusted = true;
      waitingForTime = false;
    }
  }
}
