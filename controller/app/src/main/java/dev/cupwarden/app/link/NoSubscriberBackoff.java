package dev.cupwarden.app.link;

import java.time.Duration;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Waits ever longer while the broker has no subscriber for what is told. A broker that was just
 * started may be reached before the host is back at it; it would acknowledge everything and give it
 * to nobody. MQTT 5 lets it say so (section 3.4.2.1, reason 0x10, no matching subscribers): then
 * telling waits a little, and all of it is told again.
 *
 * <p>Times are in nanoseconds of one monotonic clock.
 */
final class NoSubscriberBackoff {
  private static final Duration FIRST = Duration.ofMillis(500);
  private static final Duration LONGEST = Duration.ofSeconds(30);
  private static final Logger log = LoggerFactory.getLogger(NoSubscriberBackoff.class);

  private Duration wait = Duration.ZERO;
  private long fromNanos;
  private boolean missed;

  /** Somebody, or somebody's queue, has it. */
  synchronized void heard() {
    wait = Duration.ZERO;
  }

  /** The broker had nobody to give it to, or did not take it. */
  synchronized void nobody(long nowNanos) {
    if (missed) {
      return; // One of several that were under way together.
    }
    if (wait.isZero()) {
      log.warn("MQTT: online, but no host listens; what is told waits in the journal");
    }
    missed = true;
    wait = wait.isZero() ? FIRST : wait.multipliedBy(2);
    wait = wait.compareTo(LONGEST) > 0 ? LONGEST : wait;
    fromNanos = nowNanos + wait.toNanos();
  }

  /** Whether to tell now. */
  synchronized boolean mayBeThere(long nowNanos) {
    return wait.isZero() || nowNanos - fromNanos >= 0;
  }

  /** Whether something was told to nobody since this was asked last. */
  synchronized boolean takeMissed() {
    boolean was = missed;
    missed = false;
    return was;
  }

  /** A new connection: there may be others at the broker. */
  synchronized void unknown() {
    wait = Duration.ZERO;
    missed = false;
  }
}
