package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** Turns conditions into alerts: told once when they begin, once when they end. */
public final class AlertBook {
  private AlertBook() {}

  /** What stands after these conditions, and what changed. */
  public record Page(SortedMap<String, OpenAlert> open, List<AlertNotice> changes) {}

  /**
   * Holds conditions against what stands. A condition that is not among them leaves its alert as it
   * is, unless the cup is gone.
   *
   * @param open what stands, by key
   * @param now conditions at that moment, in the order of telling
   * @param cups names of the cups on the bench; alerts of others are cleared
   */
  public static Page judge(
      SortedMap<String, OpenAlert> open, List<Condition> now, Instant at, Set<String> cups) {
    SortedMap<String, OpenAlert> next = null;
    List<AlertNotice> changes = new ArrayList<>(2);
    Set<String> standing = new HashSet<>();
    open.values().forEach(alert -> standing.add(alert.cup()));
    for (Condition condition : now) {
      if (condition.level() == Condition.Level.OFF && !standing.contains(condition.cup())) {
        continue;
      }
      OpenAlert was = open.get(condition.key());
      OpenAlert becomes = becomes(was, condition, at);
      if (becomes == was) {
        continue;
      }
      next = next == null ? new TreeMap<>(open) : next;
      if (becomes == null) {
        next.remove(condition.key());
        changes.add(notice(condition, "cleared", was.since()));
      } else {
        next.put(condition.key(), becomes);
        changes.add(notice(condition, becomes.state(), becomes.since()));
      }
    }
    for (OpenAlert orphan : open.values()) {
      if (orphan.cup() != null && !cups.contains(orphan.cup())) {
        next = next == null ? new TreeMap<>(open) : next;
        Condition gone = Condition.when(orphan.code(), orphan.cup(), false, 0.0, 0.0);
        next.remove(gone.key());
        changes.add(notice(gone, "cleared", orphan.since()));
      }
    }
    return new Page(next == null ? open : Collections.unmodifiableSortedMap(next), changes);
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

  private static AlertNotice notice(Condition condition, String state, Instant since) {
    return new AlertNotice(
        condition.code(),
        condition.cup(),
        state,
        since,
        rounded(condition.value()),
        rounded(condition.threshold()),
        WhatToDo.about(condition.code()));
  }

  /** Four digits after the point tell all that a person or a chart can use. */
  private static double rounded(double value) {
    return Double.isFinite(value) ? Math.rint(value * 1e4) / 1e4 : 0.0;
  }
}
