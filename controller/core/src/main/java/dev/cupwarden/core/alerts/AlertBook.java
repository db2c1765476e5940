package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** Turns conditions into alerts: told once when they begin, once when they end. */
public final class AlertBook {
  private final SortedMap<String, OpenAlert> open;
  private final Instant at;
  private final List<AlertNotice> changes = new ArrayList<>(2);
  private SortedMap<String, OpenAlert> next;

  private AlertBook(SortedMap<String, OpenAlert> open, Instant at) {
    this.open = open;
    this.at = at;
  }

  /** What stands after these conditions, and what changed. */
  public record Page(SortedMap<String, OpenAlert> open, List<AlertNotice> changes) {}

  /**
   * Holds conditions against what stands. A condition that is not among them leaves its alert as it
   * is, unless the cup is gone. Many cups with one cause are told as one; see {@link Together}.
   *
   * @param open what stands, by key
   * @param now conditions at that moment, in the order of telling
   * @param cups names of the cups on the bench; alerts of others are cleared
   */
  public static Page judge(
      SortedMap<String, OpenAlert> open, Conditions now, Instant at, Set<String> cups) {
    AlertBook book = new AlertBook(open, at);
    Together together = Together.of(open, now.kept(), at, cups.size());
    for (Conditions.Told told : now.kept()) {
      Condition condition = told.condition();
      if (!together.covers(condition)) {
        book.turn(condition, told.standing(), WhatToDo.about(condition));
      } else if (told.standing() == null) {
        book.cover(condition);
      }
    }
    for (Condition condition : together.benchWide()) {
      String code = condition.code();
      book.turn(condition, open.get(condition.key()), WhatToDo.together(code, together.cups(code)));
    }
    book.forgetAllBut(cups);
    return new Page(
        book.next == null ? open : Collections.unmodifiableSortedMap(book.next), book.changes);
  }

  private void turn(Condition condition, OpenAlert was, String whatToDo) {
    OpenAlert becomes = becomes(was, condition, at);
    if (becomes == was) {
      return;
    }
    if (becomes == null) {
      keep().remove(condition.key());
      if (!was.state().equals(Together.STATE)) {
        changes.add(notice(condition, "cleared", was.since(), whatToDo));
      }
    } else {
      keep().put(condition.key(), becomes);
      changes.add(notice(condition, becomes.state(), becomes.since(), whatToDo));
    }
  }

  private void cover(Condition condition) {
    keep()
        .put(condition.key(), new OpenAlert(condition.code(), condition.cup(), Together.STATE, at));
  }

  private void forgetAllBut(Set<String> cups) {
    for (OpenAlert orphan : open.values()) {
      if (orphan.cup() != null && !cups.contains(orphan.cup())) {
        Condition gone = Condition.when(orphan.code(), orphan.cup(), false, 0.0, 0.0);
        keep().remove(gone.key());
        if (!orphan.state().equals(Together.STATE)) {
          changes.add(notice(gone, "cleared", orphan.since(), WhatToDo.about(orphan.code())));
        }
      }
    }
  }

  private SortedMap<String, OpenAlert> keep() {
    if (next == null) {
      next = new TreeMap<>(open);
    }
    return next;
  }

  private static OpenAlert becomes(OpenAlert standing, Condition condition, Instant at) {
    return switch (condition.level()) {
      case OFF -> null;
      case BETWEEN -> standing;
      case WARN ->
          standing != null
              ? standing
              : new OpenAlert(condition.code(), condition.cup(), "warned", at);
      case ON ->
          standing != null && standing.state().equals("raised")
              ? standing
              : new OpenAlert(
                  condition.code(),
                  condition.cup(),
                  "raised",
                  standing == null ? at : standing.since());
    };
  }

  private static AlertNotice notice(
      Condition condition, String state, Instant since, String whatToDo) {
    return new AlertNotice(
        condition.code(),
        condition.cup(),
        state,
        since,
        rounded(condition.value()),
        rounded(condition.threshold()),
        whatToDo);
  }

  /** Four digits after the point tell all that a person or a chart can use. */
  private static double rounded(double value) {
    return Double.isFinite(value) ? Math.rint(value * 1e4) / 1e4 : 0.0;
  }
}
