package dev.cupwarden.host.watch;

import dev.cupwarden.core.messages.Beat;
import dev.cupwarden.core.messages.Beat.Doing;
import dev.cupwarden.core.units.Elapsed;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;

/**
 * Whether a controller's loop goes on, by its beats alone: its process may be connected, and tell
 * old events again, and finish no tick.
 *
 * @param lasted how long no tick is known to have been finished, or no beat was heard
 * @param limit how long is too long
 * @param tooLong whether it is
 * @param whatToDo what is wrong, and what to do about it
 */
record ControllerLiveness(Duration lasted, Duration limit, boolean tooLong, String whatToDo) {
  /** Three beats that did not come, and a margin. */
  static final Duration NO_BEAT = Duration.ofMinutes(4);

  /** A crash loop, not a person who restarts it twice. */
  private static final int STARTS_IN_VAIN = 3;

  /** The longest soak that a bench file may name: for so long the first tick may wait. */
  private static final Duration LONGEST_SETTLING = Duration.ofHours(6);

  private static final Duration MINUTE = Duration.ofMinutes(1);

  static ControllerLiveness of(Heartbeats.Life life, Instant now) {
    Beat beat = life.last();
    Duration sinceBeat = Duration.between(life.heard(), now);
    Duration sinceTick = Duration.between(life.moved(), now);
    Duration limit = limitOf(beat);
    if (sinceBeat.compareTo(NO_BEAT) >= 0) {
      return new ControllerLiveness(
          sinceBeat,
          NO_BEAT,
          true,
          "Its loop no longer reports: look at the controller's log, or restart it.");
    }
    if (beat.doing() == Doing.ENDED) {
      return new ControllerLiveness(
          sinceTick, limit, true, "Its loop has ended: look at the controller's log, restart it.");
    }
    if (isInVain(beat)) {
      String starts = beat.startsInVain() + " starts without a finished tick";
      return new ControllerLiveness(
          sinceTick, limit, true, "The controller made " + starts + ": look at its log.");
    }
    return new ControllerLiveness(sinceTick, limit, isHung(life, limit, now), hung(beat));
  }

  /** So many starts came to nothing, and this one has come to nothing yet. */
  static boolean isInVain(Beat beat) {
    return beat.tick() == 0 && beat.startsInVain() >= STARTS_IN_VAIN;
  }

  /** Two ticks and a minute. */
  private static Duration limitOf(Beat beat) {
    return seconds(2 * beat.periodS()).plus(MINUTE);
  }

  /**
   * Beats come once a minute, and one may be late: until the next the loop is taken for hung only
   * if the last one caught it at one thing for longer than a whole tick.
   */
  private static boolean isHung(Heartbeats.Life life, Duration limit, Instant now) {
    Beat beat = life.last();
    Duration atIt = seconds(beat.forS());
    if (beat.doing() == Doing.SETTLING && atIt.compareTo(LONGEST_SETTLING) < 0) {
      return false;
    }
    Instant known = atIt.compareTo(seconds(beat.periodS())) >= 0 ? now : life.heard();
    return Duration.between(life.moved(), known).compareTo(limit) >= 0;
  }

  private static String hung(Beat beat) {
    return String.format(
        Locale.ROOT,
        "Its loop hangs: tick %d was its last, and it has been %s for %.0f min: restart it, and look"
            + " at its log.",
        beat.tick(),
        beat.doing().word(),
        Math.max(1, beat.forS() / MINUTE.toSeconds()));
  }

  private static Duration seconds(double seconds) {
    return Elapsed.ofSeconds(seconds);
  }
}
