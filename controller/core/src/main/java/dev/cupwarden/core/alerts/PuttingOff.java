package dev.cupwarden.core.alerts;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A person who knows of an alert need not hear of it again for a while. It still stands, and is
 * told before its time if it grows worse or comes to name another cup. What ends and begins anew is
 * another alert.
 *
 * @param code of the alert
 * @param cup whose; empty for one of the whole bench, or of a tank
 * @param tank which; empty for all tanks of which it stands
 * @param until first moment at which it may be told again
 */
public record PuttingOff(String code, Optional<String> cup, Optional<String> tank, Instant until) {
  private static final Duration LONGEST = Duration.ofDays(7);

  /** Why that cannot be, by the field at fault; empty where it can. */
  public Optional<String> refusal(SortedMap<String, OpenAlert> open, Instant at) {
    if (!until.isAfter(at)) {
      return Optional.of("until: " + until + " is not later than now, " + at);
    }
    if (until.isAfter(at.plus(LONGEST))) {
      return Optional.of(
          "until: an alert is put off for at most " + LONGEST.toDays() + " days, not to " + until);
    }
    Optional<AlertCode> known = AlertCode.find(code);
    if (known.isEmpty()) {
      return Optional.of("alert: no alert is called \"" + code + "\"");
    }
    if (!known.get().puttingOff()) {
      return Optional.of("alert: " + code + " is not put off: it is told until it is over");
    }
    return open.values().stream().anyMatch(this::means)
        ? Optional.empty()
        : Optional.of("alert: " + noneStands(open));
  }

  /** What stands, put off. */
  public SortedMap<String, OpenAlert> in(SortedMap<String, OpenAlert> open) {
    SortedMap<String, OpenAlert> after = new TreeMap<>(open);
    after.replaceAll((key, alert) -> means(alert) ? alert.later(until) : alert);
    return Collections.unmodifiableSortedMap(after);
  }

  private boolean means(OpenAlert alert) {
    return alert.code().equals(code)
        && !alert.state().equals(AlertGrouping.STATE)
        && cup.equals(Optional.ofNullable(alert.cup()))
        && (tank.isEmpty() || tank.equals(Optional.ofNullable(alert.tank())));
  }

  private String noneStands(SortedMap<String, OpenAlert> open) {
    List<String> of = new ArrayList<>();
    for (OpenAlert alert : open.values()) {
      if (alert.code().equals(code) && !alert.state().equals(AlertGrouping.STATE)) {
        of.add(
            alert.cup() != null
                ? "cup " + alert.cup()
                : alert.tank() != null ? "tank " + alert.tank() : "the whole bench");
      }
    }
    String whose =
        cup.map(name -> " of cup " + name)
            .or(() -> tank.map(name -> " of tank " + name))
            .orElse(" of the whole bench");
    String none = "no " + code + whose + " is open";
    return of.isEmpty() ? none : none + "; it is open of " + String.join(", ", of);
  }
}
