package dev.cupwarden.simulator.second;

import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.world.Act;
import dev.cupwarden.simulator.world.Person;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.BooleanSupplier;
import java.util.function.IntPredicate;

/**
 * Several people who pass by at any hour: one answers an alert within hours, another in days, a
 * third not at all; they fill tanks when they think of it, and {@link Handling} is what their hands
 * do. Frequencies are the project's choice.
 */
public final class Housemates implements Person {
  private static final double NOTICES = 0.7;
  private static final double FILLS = 0.8;

  private final FaultLevel level;
  private final ZoneId zone;
  private final SplittableRandom random;
  private final Handling handling;
  private final LocalDate tripFrom;
  private final LocalDate tripTo;
  private LocalDate today;
  private int visitMinute;
  private Instant answerAt;
  private boolean answering;

  /** From the day of the start on, for so many days, with one journey of so many. */
  public Housemates(
      FaultLevel level, ZoneId zone, Instant start, int days, int tripDays, long seed) {
    this.level = level;
    this.zone = zone;
    this.random = new SplittableRandom(seed);
    this.handling = new Handling(level, random.split());
    LocalDate first = start.atZone(zone).toLocalDate();
    int spare = Math.max(1, days - tripDays - 10);
    this.tripFrom = first.plusDays(8 + random.nextInt(spare));
    this.tripTo = tripFrom.plusDays(tripDays);
    this.today = first;
    this.visitMinute = -1;
  }

  @Override
  public boolean away(LocalDate day) {
    return !day.isBefore(tripFrom) && day.isBefore(tripTo);
  }

  @Override
  public boolean comes(Instant at, int tickMin, BooleanSupplier reported) {
    ZonedDateTime clock = at.atZone(zone);
    LocalDate day = clock.toLocalDate();
    if (!day.equals(today)) {
      today = day;
      plan(day);
    }
    int minute = clock.getHour() * 60 + clock.getMinute();
    boolean passes = visitMinute >= minute && visitMinute < minute + tickMin;
    return answers(at, clock.getHour(), reported) || passes;
  }

  /** When they look in on that day, if at all; on the eve of a journey and after it, surely. */
  private void plan(LocalDate day) {
    boolean weekend = day.getDayOfWeek().compareTo(DayOfWeek.SATURDAY) >= 0;
    double chance = random.nextDouble();
    int minute = 7 * 60 + random.nextInt(15 * 60);
    boolean must = day.equals(tripFrom.minusDays(1)) || day.equals(tripTo);
    boolean comes = must || chance < (weekend ? 0.7 : 0.4);
    visitMinute = comes && !away(day) ? minute : -1;
  }

  private boolean answers(Instant at, int hour, BooleanSupplier reported) {
    answering = false;
    if (!reported.getAsBoolean()) {
      answerAt = null;
      return false;
    }
    if (answerAt == null) {
      double who = random.nextDouble();
      double length = random.nextDouble();
      double h = who < 0.4 ? 1 + 8 * length : who < 0.8 ? 24 + 80 * length : 14 * 24;
      answerAt = at.plusSeconds(Math.round(h * 3600));
    }
    answering = !at.isBefore(answerAt) && hour >= 7 && hour < 23 && !away(today);
    if (answering) {
      answerAt = null;
    }
    return answering;
  }

  @Override
  public List<Act> visit(
      List<? extends TrueCup> cups, IntPredicate present, int[] told, IntPredicate reported) {
    List<Act> acts = new ArrayList<>();
    if (random.nextDouble() < FILLS) {
      acts.add(new Act.Filling());
    }
    boolean mends = answering || random.nextDouble() < 0.25;
    for (int cup = 0; cup < cups.size(); cup++) {
      double notice = random.nextDouble();
      if (!present.test(cup)) {
        continue;
      }
      TrueCup truth = cups.get(cup);
      if (!truth.alive()) {
        acts.add(new Act.Removal(cup, truth.rotted()));
      } else if (truth.stage().ordinal() > told[cup] && notice < NOTICES) {
        acts.add(new Act.Sighting(cup, truth.stage()));
      }
      if (mends && reported.test(cup)) {
        acts.add(new Act.Mending(cup));
      }
    }
    if (level != FaultLevel.NONE) {
      handling.act(today, cups, present, acts);
    }
    return acts;
  }
}
