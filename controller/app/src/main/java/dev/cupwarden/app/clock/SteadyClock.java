package dev.cupwarden.app.clock;

import dev.cupwarden.core.units.Elapsed;
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

  /**
   * Our choice: a clock that is no further on at a start needs nobody to vouch for it. A clock that
   * is wrong by so little costs little: a window that opens late, a rate that is somewhat off.
   */
  private static final Duration SHORT_ABSENCE = Duration.ofHours(2);

  /** Our choice: within this a started machine hears a time server, if it hears one soon at all. */
  private static final Duration SERVER_PATIENCE = Duration.ofHours(1);

  /** Our choice: while it is ahead it is slower by one part in so many. */
  private static final int SLOWER_BY_ONE_IN = 10;

  private static final Duration LEAST_STEP = Duration.ofMillis(1);

  private final BenchTime time;
  private final ClockEvidence evidence;
  private final long startNanos;
  private final Instant startWall;

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

  /** A source that vouches for the clock is believed until it was, or until a person has looked. */
  private boolean waitingForSource;

  /** There has been no time at all: the first that is one is believed. */
  private boolean timeless;

  private SteadyClock(BenchTime time, Instant anchor) {
    this.time = time;
    this.evidence = time.evidence();
    this.startWall = time.wall();
    this.anchor = anchor;
    this.soonest = anchor;
    this.startNanos = time.nanos();
    this.anchorNanos = startNanos;
  }

  /**
   * For a bench that has never run. A clock that shows a year before this program's is none; the
   * bench's time then begins with that year, and goes on from the first time that is one.
   */
  public static SteadyClock fresh(BenchTime time) {
    Instant wall = time.wall();
    boolean plausible = !wall.isBefore(time.evidence().notBefore());
    SteadyClock clock = new SteadyClock(time, plausible ? wall : time.evidence().notBefore());
    clock.trusted = plausible;
    clock.timeless = !plausible;
    return clock;
  }

  /**
   * For a bench that was last seen at a time. Not trusted is a wall clock that shows an earlier
   * one, as a board without a battery does before it has heard a time source, nor one that is hours
   * later and for which neither a time source nor a clock chip vouches.
   */
  public static SteadyClock after(Instant last, BenchTime time) {
    Instant wall = time.wall();
    boolean trusted = couldFollow(wall, last) && vouchedFor(time.evidence(), wall, last);
    SteadyClock clock = new SteadyClock(time, trusted ? wall : last.plus(LEAST_STEP));
    clock.trusted = trusted;
    clock.waitingForTime = true;
    clock.waitingForSource = !trusted;
    return clock;
  }

  private static boolean vouchedFor(ClockEvidence evidence, Instant wall, Instant last) {
    return wall.isBefore(last.plus(SHORT_ABSENCE))
        || evidence.synchronised()
        || evidence.chipAgrees(wall, last);
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
    if (!agrees(wall, nanos) && isTheTime(wall, nanos, anchor.plus(since))) {
      acceptWall();
    }
    trusted = isPlausible(wall) && agrees(wall, nanos);
    waitingForSource &= !trusted;
    Instant believed = trusted ? wall : believed(nanos);
    Instant slower = believed.plus(ahead).minus(since.dividedBy(SLOWER_BY_ONE_IN));
    anchor = Collections.max(List.of(believed, slower, soonest));
    anchorNanos = nanos;
    ahead = Duration.between(believed, anchor);
    beyondWall = Duration.between(wall, anchor);
    soonest = anchor.plus(LEAST_STEP);
    return anchor;
  }

  /** Whether a wall clock that shows something else than is believed is right all the same. */
  private boolean isTheTime(Instant wall, long nanos, Instant steady) {
    boolean setByASource = (waitingForSource || timeless) && evidence.synchronised();
    boolean setSinceTheStart =
        waitingForTime && hasJumped(wall, nanos) && couldFollow(wall, steady);
    return setByASource || setSinceTheStart || (timeless && isPlausible(wall));
  }

  /** A machine that starts with a wrong time and hears a right one is set once it runs. */
  private boolean hasJumped(Instant wall, long nanos) {
    Instant expected = startWall.plusNanos(nanos - startNanos);
    return Duration.between(expected, wall).abs().toMillis() > JUMP_S * 1000;
  }

  private boolean isPlausible(Instant wall) {
    return !wall.isBefore(evidence.notBefore());
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
    return Elapsed.seconds(Duration.between(believed(time.nanos()), time.wall()));
  }

  /**
   * A person has looked at the wall clock and found it right: it is followed again, at once where
   * that means to go on, and bit by bit where it means to go back, by two weeks at most.
   */
  public void acceptWall() {
    long nanos = time.nanos();
    Instant wall = time.wall();
    Instant steady = anchor.plusNanos(nanos - anchorNanos);
    if (!isPlausible(wall) || wall.isBefore(steady.minus(LONGEST_ABSENCE))) {
      return;
    }
    anchor = Collections.max(List.of(wall, steady));
    anchorNanos = nanos;
    ahead = Duration.between(wall, anchor);
    trusted = true;
    waitingForTime = false;
    waitingForSource = false;
    timeless = false;
  }
}
