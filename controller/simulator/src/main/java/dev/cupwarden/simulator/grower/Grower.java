package dev.cupwarden.simulator.grower;

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

/** The person: when they come and what they do. Frequencies are the project's choice. */
public final class Grower implements Person {
  private static final int LOOK_HOUR = 18;
  private static final int WEEKEND_LOOK_HOUR = 10;

  /** A journey of a week with its weekends. */
  public static final int USUAL_TRIP_DAYS = 9;

  private final FaultLevel level;
  private final ZoneId zone;
  private final SplittableRandom random;
  private final int tripDays;
  private final LocalDate tripFrom;
  private LocalDate nextLook;

  /** From the day of the start on, for so many days, with one journey of so many. */
  public Grower(FaultLevel level, ZoneId zone, Instant start, int days, int tripDays, long seed) {
    this.level = level;
    this.tripDays = tripDays;
    this.zone = zone;
    this.random = new SplittableRandom(seed);
    LocalDate first = start.atZone(zone).toLocalDate();
    int latest = Math.max(2, days - tripDays - 5);
    this.tripFrom =
        first.plusDays(Math.min(latest, days / 3 + random.nextInt(Math.max(1, days / 3))));
    this.nextLook = first.plusDays(1);
  }

  @Override
  public boolean away(LocalDate day) {
    return !day.isBefore(tripFrom) && day.isBefore(tripFrom.plusDays(tripDays));
  }

  /** They come by their own calendar, whatever is reported. */
  @Override
  public boolean comes(Instant at, int tickMin, BooleanSupplier reported) {
    return comes(at, tickMin);
  }

  /** Whether they come to the bench within these minutes; asked once a tick, in order. */
  public boolean comes(Instant at, int tickMin) {
    ZonedDateTime clock = at.atZone(zone);
    LocalDate day = clock.toLocalDate();
    if (day.isBefore(nextLook)) {
      return false;
    }
    boolean weekend = day.getDayOfWeek().compareTo(DayOfWeek.SATURDAY) >= 0;
    int hour = weekend ? WEEKEND_LOOK_HOUR : LOOK_HOUR;
    if (clock.getHour() != hour || clock.getMinute() >= tickMin) {
      return false;
    }
    nextLook = day.plusDays(2 + random.nextInt(2));
    if (away(nextLook)) {
      // A last look on the eve of the journey; the next is on the day of the return.
      LocalDate eve = tripFrom.minusDays(1);
      nextLook = day.isBefore(eve) ? eve : tripFrom.plusDays(tripDays);
    }
    return true;
  }

  @Override
  public List<Act> visit(
      List<? extends TrueCup> cups, IntPredicate present, int[] told, IntPredicate reported) {
    List<Act> acts = new ArrayList<>();
    acts.add(new Act.Filling());
    for (int cup = 0; cup < cups.size(); cup++) {
      // The same draws for every cup, whatever comes of them: one policy's cups meet what another's
      // do.
      double notice = random.nextDouble();
      double handle = random.nextDouble();
      double tell = random.nextDouble();
      double much = random.nextDouble();
      if (present.test(cup)) {
        look(cups.get(cup), cup, told[cup], notice, acts);
        if (level != FaultLevel.NONE && cups.get(cup).alive()) {
          handle(cup, handle, tell, much, acts);
        }
        if (reported.test(cup)) {
          acts.add(new Act.Mending(cup));
        }
      }
    }
    return acts;
  }

  private static void look(TrueCup truth, int cup, int told, double notice, List<Act> acts) {
    if (!truth.alive()) {
      acts.add(new Act.Removal(cup, truth.rotted()));
    } else if (truth.stage().ordinal() > told && notice < 0.85) {
      acts.add(new Act.Sighting(cup, truth.stage()));
    }
  }

  private static void handle(int cup, double chance, double tell, double much, List<Act> acts) {
    if (chance < 0.08) {
      acts.add(new Act.Lift(cup, 1 + (int) (much * 25)));
    } else if (chance < 0.084) {
      acts.add(new Act.Outing(cup, 60 + (int) (much * 600), tell < 0.6));
    } else if (chance < 0.090) {
      acts.add(new Act.HandWatering(cup, 15 + much * 35, 0, tell < 0.6));
    }
  }
}
