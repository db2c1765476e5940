package dev.cupwarden.core.alerts;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.function.Supplier;

/**
 * What a person should know of, gathered in the order of telling. What raises nothing and has no
 * alert to clear is not kept: that is nearly all, of every cup at every tick.
 */
public final class Conditions {
  private final Map<String, List<OpenAlert>> openBySubject = new HashMap<>();
  private final List<Told> kept = new ArrayList<>();

  /** Of what was last asked of: conditions come cup by cup, a dozen of each. */
  private List<OpenAlert> lastOpen = List.of();

  /** Null before the first. */
  private String lastSubject;

  /**
   * A condition beside the alert that stands of it.
   *
   * @param standing null where none does
   */
  record Told(Condition condition, OpenAlert standing) {}

  /** To be held against these alerts. */
  public Conditions(SortedMap<String, OpenAlert> open) {
    for (OpenAlert alert : open.values()) {
      String subject = Subject.of(alert.cup(), alert.tank());
      openBySubject.computeIfAbsent(subject, of -> new ArrayList<>(2)).add(alert);
    }
  }

  /** As that level says. */
  public void add(
      AlertCode code, String cup, Condition.Level level, double value, double threshold) {
    OpenAlert standing = standing(code, Subject.of(cup, null));
    if (level == Condition.Level.ON || standing != null) {
      kept.add(new Told(new Condition(code, cup, level, value, threshold), standing));
    }
  }

  private OpenAlert standing(AlertCode code, String subject) {
    if (!subject.equals(lastSubject)) {
      lastSubject = subject;
      lastOpen = openBySubject.getOrDefault(subject, List.of());
    }
    for (OpenAlert alert : lastOpen) {
      if (alert.code().equals(code.word())) {
        return alert;
      }
    }
    return null;
  }

  /** About which there is something else to do than its code says. */
  public void add(Condition condition) {
    add(condition, condition::whatToDo);
  }

  /** The same, about which there is to do what is worded only if it is kept. */
  public void add(Condition condition, Supplier<String> whatToDo) {
    OpenAlert standing = standing(condition.code(), Subject.of(condition.cup(), condition.tank()));
    if (standing != null || condition.level() == Condition.Level.ON) {
      kept.add(new Told(condition.saying(whatToDo.get()), standing));
    }
  }

  /** On above one value, off below a lower one. */
  public void above(AlertCode code, String cup, double value, double threshold, double clearBelow) {
    add(code, cup, Condition.Level.above(value, threshold, clearBelow), value, threshold);
  }

  /** On below one value, off above a higher one. */
  public void below(AlertCode code, String cup, double value, double threshold, double clearAbove) {
    add(code, cup, Condition.Level.below(value, threshold, clearAbove), value, threshold);
  }

  /** Simply so or not. */
  public void when(AlertCode code, String cup, boolean so, double value, double threshold) {
    add(code, cup, so ? Condition.Level.ON : Condition.Level.OFF, value, threshold);
  }

  /** Those that may change an alert. */
  List<Told> kept() {
    return kept;
  }
}
