package dev.cupwarden.core.alerts;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Alerts of one cause told as one. Four cups or more that begin to want the same alert within half
 * an hour have one cause, and so has half of the bench, whenever it began: one alert is told of the
 * whole bench, with the cups' names in what to do, and those cups' own are not. A cup that was told
 * of before stays told; a cup that follows later is told singly, unless half of the bench is in it.
 * The one alert ends with the last cup that it stands for.
 */
final class AlertGrouping {
  /** State of an alert that stands but is told only as a part of its bench's. */
  static final String STATE = "together";

  /** In the order of their names, in which they are told. */
  private static final Comparator<AlertCode> BY_WORD = Comparator.comparing(AlertCode::word);

  private static final int LEAST_CUPS = 4;
  private static final Duration SHORTLY = Duration.ofMinutes(30);

  private final Map<AlertCode, Set<String>> members = new EnumMap<>(AlertCode.class);
  private final SortedMap<AlertCode, Condition> benchWide = new TreeMap<>(BY_WORD);

  private AlertGrouping() {}

  /**
   * Which of these conditions belong together.
   *
   * @param open what stands, by key
   * @param now conditions at that moment
   * @param cups on the bench
   */
  static AlertGrouping of(
      SortedMap<String, OpenAlert> open, List<Conditions.Told> now, Instant at, int cups) {
    AlertGrouping together = new AlertGrouping();
    if (now.isEmpty()) {
      together.endWhatIsOver(open);
      return together;
    }
    Map<AlertCode, List<Conditions.Told>> wanting = new EnumMap<>(AlertCode.class);
    for (Conditions.Told told : now) {
      if (wants(told.condition(), told.standing())) {
        wanting.computeIfAbsent(told.condition().code(), code -> new ArrayList<>(4)).add(told);
      }
    }
    wanting.forEach((code, all) -> together.look(code, all, at, cups));
    together.endWhatIsOver(open);
    return together;
  }

  /** What was told of the whole bench and has no cup left in it ends. */
  private void endWhatIsOver(SortedMap<String, OpenAlert> open) {
    for (OpenAlert alert : open.values()) {
      AlertCode code = AlertCode.of(alert.code());
      boolean left = alert.cup() == null && alert.tank() == null && code.together();
      if (left && !benchWide.containsKey(code)) {
        benchWide.put(code, Condition.when(code, null, false, 0.0, LEAST_CUPS));
      }
    }
  }

  /** So now, or still within its hysteresis. */
  private static boolean wants(Condition condition, OpenAlert standing) {
    return condition.cup() != null
        && condition.code().together(condition.severity())
        && switch (condition.level()) {
          case ON -> true;
          case BETWEEN -> standing != null;
          case OFF -> false;
        };
  }

  private void look(AlertCode code, List<Conditions.Told> all, Instant at, int cups) {
    List<Condition> fresh = new ArrayList<>(all.size());
    Set<String> in = new TreeSet<>();
    int shortly = 0;
    for (Conditions.Told told : all) {
      Condition condition = told.condition();
      OpenAlert standing = told.standing();
      if (standing == null) {
        fresh.add(condition);
      } else if (standing.state().equals(STATE)) {
        in.add(condition.cup());
      } else if (Duration.between(standing.since(), at).compareTo(SHORTLY) <= 0) {
        shortly++;
      }
    }
    boolean half = all.size() >= LEAST_CUPS && 2 * all.size() >= cups;
    if (half || fresh.size() + shortly >= LEAST_CUPS) {
      for (Condition condition : fresh) {
        in.add(condition.cup());
      }
    }
    if (!in.isEmpty()) {
      members.put(code, in);
      benchWide.put(code, asOne(code, all, in));
    }
  }

  /** As severe as the worst of its cups; by a bound if all of them are. */
  private static Condition asOne(AlertCode code, List<Conditions.Told> all, Set<String> in) {
    boolean on = false;
    boolean bound = true;
    int severity = 0;
    for (Conditions.Told told : all) {
      Condition condition = told.condition();
      if (in.contains(condition.cup())) {
        on |= condition.level() == Condition.Level.ON;
        bound &= condition.bound();
        severity = Math.max(severity, condition.severity());
      }
    }
    Condition.Level level = on ? Condition.Level.ON : Condition.Level.BETWEEN;
    Condition one = new Condition(code, null, level, all.size(), LEAST_CUPS).severe(severity);
    return bound ? one.byBound() : one;
  }

  /** Whether that condition is told only as a part of its bench's. */
  boolean covers(Condition condition) {
    Set<String> in = members.get(condition.code());
    return in != null && condition.cup() != null && in.contains(condition.cup());
  }

  /** The alerts of the whole bench in their place. */
  Iterable<Condition> benchWide() {
    return benchWide.values();
  }

  /** The cups that one of them stands for, in order of name. */
  List<String> cups(AlertCode code) {
    return List.copyOf(members.getOrDefault(code, Set.of()));
  }
}
