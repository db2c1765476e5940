package dev.cupwarden.simulator.second;

import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.world.Act;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntPredicate;

/**
 * What hands do to cups at a visit, and what they put right again days later: a cup lifted to look,
 * taken out, watered, soaked in the sink, knocked, leaned on, covered, set on a saucer, or put back
 * in another's place. With all faults twice as often as commonly.
 */
final class Handling {
  private final double often;
  private final SplittableRandom random;
  private final List<Undo> undone = new ArrayList<>();

  /** Something to be put right at the first visit on that day or later. */
  private record Undo(LocalDate from, int cup, Act act) {}

  Handling(FaultLevel level, SplittableRandom random) {
    this.often = level == FaultLevel.ALL ? 2 : 1;
    this.random = random;
  }

  /** Adds to the acts of a visit on that day. */
  void act(LocalDate day, List<? extends TrueCup> cups, IntPredicate present, List<Act> acts) {
    undone.removeIf(
        undo -> {
          boolean now = !day.isBefore(undo.from) && present.test(undo.cup);
          if (now) {
            acts.add(undo.act);
          }
          return now;
        });
    for (int cup = 0; cup < cups.size(); cup++) {
      // As many draws for every cup, whatever comes of them.
      double chance = random.nextDouble() / often;
      double much = random.nextDouble();
      double tell = random.nextDouble();
      if (present.test(cup) && cups.get(cup).alive() && untouched(cup)) {
        touch(day, cup, (cup + 1) % cups.size(), chance, much, tell, present, acts);
      }
    }
  }

  private boolean untouched(int cup) {
    return undone.stream().noneMatch(undo -> undo.cup == cup || other(undo.act) == cup);
  }

  private static int other(Act act) {
    return act instanceof Act.Exchange pair ? pair.other() : -1;
  }

  private void touch(
      LocalDate day,
      int cup,
      int neighbour,
      double chance,
      double much,
      double tell,
      IntPredicate present,
      List<Act> acts) {
    if (chance < 0.060) {
      acts.add(new Act.Lift(cup, 1 + (int) (much * 20)));
    } else if (chance < 0.064) {
      acts.add(new Act.Outing(cup, 40 + (int) (much * 700), tell < 0.5));
    } else if (chance < 0.070) {
      acts.add(new Act.HandWatering(cup, 10 + 50 * much, 0, tell < 0.5));
    } else if (chance < 0.074) {
      int says = tell < 0.33 ? 0 : tell < 0.66 ? 120 + (int) (much * 1500) : -1;
      acts.add(new Act.Soak(cup, 10 + (int) (much * 100), 1.5 + 4 * tell, says));
    } else if (chance < 0.084) {
      acts.add(new Act.Bump(cup, (tell < 0.5 ? -1 : 1) * (0.4 + 4 * much)));
    } else if (chance < 0.088) {
      acts.add(new Act.Lean(cup, 4 + 60 * much, 15 + (int) (400 * tell)));
    } else {
      leave(day, cup, neighbour, chance, much, present, acts);
    }
  }

  /** What stays so for days. */
  private void leave(
      LocalDate day,
      int cup,
      int neighbour,
      double chance,
      double much,
      IntPredicate present,
      List<Act> acts) {
    LocalDate later = day.plusDays(1 + (int) (much * 6));
    if (chance < 0.0895) {
      acts.add(new Act.Cover(cup, true));
      undone.add(new Undo(later, cup, new Act.Cover(cup, false)));
    } else if (chance < 0.0910) {
      acts.add(new Act.Saucer(cup, true));
      undone.add(new Undo(later, cup, new Act.Saucer(cup, false)));
    } else if (chance < 0.0925 && cup != neighbour && present.test(neighbour)) {
      if (untouched(neighbour)) {
        acts.add(new Act.Exchange(cup, neighbour, false));
        undone.add(new Undo(later, cup, new Act.Exchange(cup, neighbour, true)));
      }
    }
  }
}
