package dev.cupwarden.core.alerts;

import dev.cupwarden.core.messages.AlertNotice;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Which of the alerts that stand are told again now: those whose interval is over, those that have
 * grown worse, and those that say something else than when they were last told. Once one is told
 * again for its interval, all of the same interval that were told half of it ago go along, so that
 * a bench with many alerts sends one message a day, not one for each. Who puts one off hears of it
 * before its time only if it grows worse or names another cup.
 */
final class Reminders {
  /** Other words that say nothing worse wait for so long, so that a cup that wavers is no siren. */
  private static final Duration OTHER_WORDS_AFTER = Duration.ofMinutes(15);

  /** So do further cups, which dry one after the other. */
  private static final Duration MORE_CUPS_AFTER = Duration.ofHours(3);

  /** A figure within a sentence, but not the end of a cup's name. */
  private static final Pattern FIGURE = Pattern.compile("\\b\\d+(?:\\.\\d+)?\\b");

  private final Instant at;
  private final Duration untilNextLook;
  private final List<Standing> unchanged = new ArrayList<>();
  private final List<Standing> due = new ArrayList<>();

  /**
   * @param untilNextLook what would come due before the next look is told now
   */
  Reminders(Instant at, Duration untilNextLook) {
    this.at = at;
    this.untilNextLook = untilNextLook;
  }

  /** An alert that stands, and what would be told of it now. */
  record Standing(OpenAlert alert, AlertNotice notice) {}

  /**
   * @param now what would be told of it now
   * @param speaks whether its words are of now; else they matter only once it is told for its time
   */
  void stands(OpenAlert alert, AlertNotice now, boolean speaks) {
    boolean worse = isWorse(alert.told(), now);
    boolean more = namesMore(alert.told(), now);
    if (isPutOff(alert) && !worse && !more) {
      return;
    }
    boolean other = speaks && saysOther(alert.told(), now);
    if (worse
        || (more && hasWaited(alert, MORE_CUPS_AFTER))
        || (other && hasWaited(alert, OTHER_WORDS_AFTER))) {
      due.add(new Standing(alert, now));
    } else if (now.state().equals("raised") && AlertCode.of(alert.code()).acts()) {
      unchanged.add(new Standing(alert, now));
    }
  }

  private boolean hasWaited(OpenAlert alert, Duration time) {
    return !at.isBefore(alert.toldAt().plus(time));
  }

  private boolean isPutOff(OpenAlert alert) {
    Instant until = alert.told() == null ? null : alert.told().laterUntil();
    return until != null && at.isBefore(until);
  }

  private static boolean isWorse(LastTold told, AlertNotice now) {
    return known(told) && now.severity() > told.notice().severity();
  }

  /** A cup that it did not name; one less is nothing to be told of. */
  private static boolean namesMore(LastTold told, AlertNotice now) {
    return known(told) && !told.notice().cups().containsAll(now.cups());
  }

  /** Other figures alone wait for its time, unless there is none. */
  private static boolean saysOther(LastTold told, AlertNotice now) {
    if (!known(told) || !now.cups().isEmpty()) {
      return false;
    }
    String before = told.notice().whatToDo();
    return AlertCode.of(now.code()).acts()
        ? !withoutFigures(now.whatToDo()).equals(withoutFigures(before))
        : !now.whatToDo().equals(before);
  }

  private static String withoutFigures(String words) {
    return FIGURE.matcher(words).replaceAll("");
  }

  private static boolean known(LastTold told) {
    return told != null && told.notice() != null;
  }

  /** Those to tell now. */
  List<Standing> due() {
    Set<Duration> intervals = new HashSet<>();
    for (Standing one : unchanged) {
      if (isOver(one)) {
        intervals.add(every(one));
      }
    }
    if (intervals.isEmpty()) {
      return due;
    }
    for (Standing one : unchanged) {
      Instant half = one.alert().toldAt().plus(every(one).dividedBy(2));
      if (isOver(one) || (intervals.contains(every(one)) && !at.isBefore(half))) {
        due.add(one);
      }
    }
    return due;
  }

  /** Before the next look it would have been silent for longer than its interval. */
  private boolean isOver(Standing one) {
    LastTold told = one.alert().told();
    Instant next = one.alert().toldAt().plus(every(one));
    return (told != null && told.laterUntil() != null)
        || !at.isBefore(next)
        || at.plus(untilNextLook).isAfter(next);
  }

  private static Duration every(Standing one) {
    return AlertCode.of(one.alert().code()).every(one.notice().severity());
  }
}
