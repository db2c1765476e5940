package dev.cupwarden.core.season;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The days outdoors that a person told of, each once; a day that is over says nothing any more.
 *
 * @param days earliest first
 */
public record Foretold(List<DayForetold> days) {
  public static final Foretold NONE = new Foretold(List.of());

  /** Nobody foretells further: our choice. */
  public static final int MOST_DAYS_AHEAD = 6;

  /** With that day in place of what was told of it before. */
  public Foretold plus(DayForetold told) {
    List<DayForetold> next = new ArrayList<>(days);
    next.removeIf(one -> one.day().equals(told.day()));
    next.add(told);
    next.sort(Comparator.comparing(DayForetold::day));
    return new Foretold(List.copyOf(next));
  }

  /** Without the days before that one. */
  public Foretold from(LocalDate today) {
    if (days.stream().noneMatch(one -> one.day().isBefore(today))) {
      return this;
    }
    return new Foretold(days.stream().filter(one -> !one.day().isBefore(today)).toList());
  }

  /** What was told of that day. */
  public Optional<DayForetold> of(LocalDate day) {
    return days.stream().filter(one -> one.day().equals(day)).findFirst();
  }
}
