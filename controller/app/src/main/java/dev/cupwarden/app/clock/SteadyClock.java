package dev.cupwarden.app.clock;

import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.List;

/**
 * The time that goes into the journal: it never stands still or goes back, and it follows the wall
 * clock only as long as that goes as monotonic time does. After a jump of the wall clock it goes on
 * by monotonic time alone and says that it is not trusted, until the wall clock agrees again or a
 * person has looked. Where a wall clock that is behind is found right, this one goes slower until
 * they meet.
 */
public final class SteadyClock {
  /** Our choice: what a time server corrects in small steps; more is a jump. */
  public static final double JUMP_S = 120;

  /**
   * Our choice: a machine that was off for longer needs a person to say what time it is, and one
   * that is further ahead cannot go slower for so long.
   */
  private static final Duration LONGEST_ABSENCE = Duration.ofDays(14);

  /** Our choice: within this a started machine hears a time server, if it hears one soon at all. */
  private static final Duration SERVER_PATIENCE = Duration.ofHours(1);

  /** Our choice: while it is ahead it is slower by one part in so many. */
  private static final int SLOWER_BY_ONE_IN = 10;

  private static final Duration LEAST_STEP = Duration.ofMillis(1);

  private final BenchTime time;
  private final long startNanos;

  /** Where it stood when it was last looked at. */
  private Instant anchor;

  private long anchorNanos;

  /** By how much that was beyond the time that is believed; never negative. */
  private Duration ahead = Duration.ZERO;

  /** By how much the last answer was beyond what the wall clock showed. */
  private Duration beyondWall = Duration.ZERO;

  /** The least that the next answer may be. */
  private Instant soonest;

  private boolean trusted = true;

  /**
   * The machine may have started without the time, going on from when it was stopped; the first
   * other one that is plausible is believed.
   */
  private boolean waitingForTime;

  private SteadyClock(BenchTime time, Instant anchor) {
    this.time = time;
    this.anchor = anchor;
    this.soonest = anchor;
    this.startNanos = time.nanos();
    this.anchorNanos = startNanos;
  }

  /** For a bench that has never run. */
  public static SteadyClock fresh(BenchTime time) {
    return new SteadyClock(time, time.wall());
  }

  /**
   * For a bench that was last seen at a time; a wall clock that shows an earlier one, as a board
   * without a battery does before it has heard a time server, or one that is weeks later, is not
   * trusted.
   */
  public static SteadyClock after(Instant last, BenchTime time) {
    Instant wall = time.wall();
    boolean trusted = couldFollow(wall, last);
    SteadyClock clock = new SteadyClock(time, trusted ? wall : last.plus(LEAST_STEP));
    clock.trusted = trusted;
    clock.waitingForTime = true;
    return clock;
  }

  private static boolean couldFollow(Instant wall, Instant last) {
    return wall.isAfter(last) && wall.isBefore(last.plus(LONGEST_ABSENCE));
  }

  /** The time now; later than any before. */
  public Instant now() {
    long nanos = time.nanos();
    Instant wall = time.wall();
    Duration since = Duration.ofNanos(nanos - anchorNanos);
    if (trusted && nanos - startNanos > SERVER_PATIENCE.toNanos()) {
      waitingForTime = false;
    }
    if (waitingForTime && !agrees(wall, nanos) && couldFollow(wall, anchor.plus(since))) {
      acceptWall();
    }
    trusted = agrees(wall, nanos);
    Instant believed = trusted ? wall : believed(nanos);
    Instant slower = believed.plus(ahead).minus(since.dividedBy(SLOWER_BY_ONE_IN));
    anchor = Collections.max(List.of(believed, slower, soonest));
    anchorNanos = nanos;
    ahead = Duration.between(believed, anchor);
    beyondWall = Duration.between(wall, anchor);
    soonest = anchor.plus(LEAST_STEP);
    return anchor;
  }

  private Instant believed(long nanos) {
    return anchor.minus(ahead).plusNanos(nanos - anchorNanos);
  }

  private boolean agrees(Instant wall, long nanos) {
    return Duration.between(believed(nanos), wall).abs().toMillis() <= JUMP_S * 1000;
  }

  /** Whether the wall clock went with monotonic time when last asked. */
  public boolean trusted() {
    return trusted;
  }

  /** By how much the last answer was beyond what the wall clock showed; negative: short of it. */
  public Duration beyondWall() {
    return beyondWall;
  }

  /** What the wall clock shows beyond the time that is believed, seconds. */
  public double aheadS() {
    return Duration.between(believed(time.nanos()), time.wall()).toMillis() / 1000.0;
  }

  /**
   * A person has looked at the wall clock and found it right: it is followed again, at once where
   * that means to go on, and bit by bit where it means to go back, by two weeks at most.
   */
  public void acceptWall() {
    long nanos = time.nanos();
    Instant wall = time.wall();
    Instant steady = anchor.plusNanos(nanos - anchorNanos);
    if (wall.isBefore(steady.minus(LONGEST_ABSENCE))) {
      return;
    }
    anchor = Collections.max(List.of(wall, steady));
    anchorNanos = nanos;
    ahead = Duration.between(wall, anchor);
    trusted = true;
    waitingForTime = false;
  }
}
