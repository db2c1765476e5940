package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Turns conditions into alerts: told when they begin, again while they stand (see {@link
 * Reminders}), and when they end.
 */
public final class AlertBook {
  private final SortedMap<String, OpenAlert> open;
  private final Instant at;
  private final Reminders reminders;
  private final List<AlertNotice> changes = new ArrayList<>(2);
  private final Set<String> judged = new HashSet<>();
  private SortedMap<String, OpenAlert> next;

  private AlertBook(SortedMap<String, OpenAlert> open, Instant at, Reminders reminders) {
    this.open = open;
    this.at = at;
    this.reminders = reminders;
  }

  /** What stands after these conditions, and what is told. */
  public record Page(SortedMap<String, OpenAlert> open, List<AlertNotice> changes) {}

  /**
   * Holds conditions against what stands. A condition that is not among them leaves its alert as it
   * is, unless the cup is gone. Many cups with one cause are told as one; see {@link
   * AlertGrouping}.
   *
   * @param open what stands, by key
   * @param now conditions at that moment, in the order of telling
   * @param cups names of the cups on the bench; alerts of others are cleared
   * @param untilNextLook what would have to be told again before then is told now
   */
  public static Page judge(
      SortedMap<String, OpenAlert> open,
      Conditions now,
      Instant at,
      Set<String> cups,
      Duration untilNextLook) {
    AlertBook book = new AlertBook(known(open), at, new Reminders(at, untilNextLook));
    book.endRetired(open.values());
    AlertGrouping together = AlertGrouping.of(book.open, now.kept(), at, cups.size());
    for (Conditions.Told told : now.kept()) {
      Condition condition = told.condition();
      if (!together.covers(condition)) {
        book.turn(condition, told.standing(), WhatToDo.about(condition), List.of());
      } else if (told.standing() == null) {
        book.cover(condition);
      }
    }
    for (Condition condition : together.benchWide()) {
      List<String> in = together.cups(condition.code());
      book.turn(condition, book.open.get(condition.key()), WhatToDo.together(condition, in), in);
    }
    book.forgetAllBut(cups);
    book.remind();
    return new Page(
        book.next == null ? book.open : Collections.unmodifiableSortedMap(book.next), book.changes);
  }

  /** All of it, but what only an older program has a word for. */
  private static SortedMap<String, OpenAlert> known(SortedMap<String, OpenAlert> open) {
    if (open.values().stream().allMatch(OpenAlert::known)) {
      return open;
    }
    SortedMap<String, OpenAlert> known = new TreeMap<>(open);
    known.values().removeIf(alert -> !alert.known());
    return Collections.unmodifiableSortedMap(known);
  }

  /** What this program has no word for is over, in the words of then. */
  private void endRetired(Collection<OpenAlert> stood) {
    for (OpenAlert alert : stood) {
      if (!alert.known() && alert.told() != null && alert.told().notice() != null) {
        changes.add(alert.told().notice().over());
      }
    }
  }

  private void turn(Condition condition, OpenAlert was, String whatToDo, List<String> cups) {
    if (was != null) {
      judged.add(was.key());
    }
    String state = state(was, condition.level());
    if (state == null) {
      if (was != null) {
        end(was, condition, whatToDo);
      }
      return;
    }
    Instant since = was == null ? at : was.since();
    AlertNotice notice = notice(condition, state, since, whatToDo, cups);
    if (was == null || !was.state().equals(state)) {
      tell(notice);
    } else if (!state.equals(AlertGrouping.STATE)) {
      reminders.stands(was, notice, condition.level() != Condition.Level.BETWEEN);
    }
  }

  private void end(OpenAlert was, Condition condition, String whatToDo) {
    keep().remove(condition.key());
    if (!was.state().equals(AlertGrouping.STATE)) {
      changes.add(notice(condition, "cleared", was.since(), whatToDo, List.of()));
    }
  }

  private void tell(AlertNotice notice) {
    OpenAlert told =
        new OpenAlert(
            notice.code(),
            notice.cup(),
            notice.state(),
            notice.since(),
            notice.tank(),
            new LastTold(at, notice, null));
    keep().put(told.key(), told);
    changes.add(notice);
  }

  private void cover(Condition condition) {
    OpenAlert covered =
        new OpenAlert(
            condition.code().word(),
            condition.cup(),
            AlertGrouping.STATE,
            at,
            condition.tank(),
            null);
    keep().put(condition.key(), covered);
  }

  private void forgetAllBut(Set<String> cups) {
    for (OpenAlert orphan : open.values()) {
      if (orphan.cup() != null && !cups.contains(orphan.cup())) {
        judged.add(orphan.key());
        AlertCode code = AlertCode.of(orphan.code());
        end(orphan, Condition.when(code, orphan.cup(), false, 0.0, 0.0), code.whatToDo());
      }
    }
  }

  /** What stands and was not judged now is told again in the words of the last time. */
  private void remind() {
    for (OpenAlert alert : open.values()) {
      if (!judged.contains(alert.key()) && !alert.state().equals(AlertGrouping.STATE)) {
        reminders.stands(alert, lastWords(alert), false);
      }
    }
    for (Reminders.Standing due : reminders.due()) {
      tell(due.notice().toldAgain());
    }
  }

  private static AlertNotice lastWords(OpenAlert alert) {
    if (alert.told() != null && alert.told().notice() != null) {
      return alert.told().notice();
    }
    AlertCode code = AlertCode.of(alert.code());
    Condition unknown =
        new Condition(code, alert.cup(), Condition.Level.BETWEEN, 0.0, 0.0).ofTank(alert.tank());
    return notice(unknown, alert.state(), alert.since(), code.whatToDo(), List.of());
  }

  private SortedMap<String, OpenAlert> keep() {
    if (next == null) {
      next = new TreeMap<>(open);
    }
    return next;
  }

  /** Null where nothing stands. */
  private static String state(OpenAlert standing, Condition.Level level) {
    return switch (level) {
      case OFF -> null;
      case BETWEEN -> standing == null ? null : standing.state();
      case ON -> OpenAlert.RAISED;
    };
  }

  private static AlertNotice notice(
      Condition condition, String state, Instant since, String whatToDo, List<String> cups) {
    return new AlertNotice(
        condition.code().word(),
        condition.cup(),
        state,
        since,
        rounded(condition.value()),
        rounded(condition.threshold()),
        whatToDo,
        condition.tank(),
        cups,
        false,
        condition.severity(),
        condition.bound());
  }

  /** Four digits after the point tell all that a person or a chart can use. */
  private static double rounded(double value) {
    return Double.isFinite(value) ? Math.rint(value * 1e4) / 1e4 : 0.0;
  }
}
