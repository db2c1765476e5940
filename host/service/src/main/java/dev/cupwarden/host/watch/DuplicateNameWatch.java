package dev.cupwarden.host.watch;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.HashMap;
import java.util.Map;

/**
 * Raises {@code two-controllers} for a bench under whose name two processes beat in turn: both
 * water. A restart is none: the process before it is not heard again. A controller that hears the
 * other raises the same alert; only here it ends.
 */
public final class DuplicateNameWatch {
  /** Our choice: for so long one alone must have beaten until it is over. */
  static final Duration ALONE = Duration.ofHours(1);

  private static final String CODE = AlertCode.TWO_CONTROLLERS.word();
  private static final String WHAT_TO_DO =
      "Two controllers run under this bench's name, and each waters: end one of them, or give it a"
          + " name of its own in its bench file.";

  private final InstantSource clock;
  private final Heartbeats beats;
  private final HostAlerts alerts;
  private final Instant started;

  /** By bench, since when it is seen to stand, whoever raised it. */
  private final Map<String, Instant> standing = new HashMap<>();

  public DuplicateNameWatch(InstantSource clock, Heartbeats beats, HostAlerts alerts) {
    this.clock = clock;
    this.beats = beats;
    this.alerts = alerts;
    this.started = clock.instant();
  }

  /** Looks at every bench that beats. */
  public void run() {
    for (String bench : beats.benches()) {
      beats.of(bench).ifPresent(life -> look(bench, life));
    }
  }

  private void look(String bench, Heartbeats.Life life) {
    Instant now = clock.instant();
    Instant last = life.turns().orElse(started);
    if (alerts.isOpen(bench, CODE)) {
      Instant since = standing.computeIfAbsent(bench, first -> now);
      last = since.isAfter(last) ? since : last;
    } else {
      standing.remove(bench);
    }
    Instant ended = last.plus(ALONE);
    if (life.turns().isPresent() && now.isBefore(ended)) {
      alerts.raised(new HostAlerts.AlertContent(bench, CODE, 2, 1, WHAT_TO_DO));
    } else if (life.heard().isAfter(ended)) {
      alerts.over(new HostAlerts.AlertContent(bench, CODE, 1, 1, WHAT_TO_DO));
    }
  }
}
