package dev.cupwarden.simulator.faults;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/** Every fault of a run, drawn beforehand; a person may mend one earlier than it would end. */
public final class FaultPlan {
  private static final InjectedFault[] KINDS = InjectedFault.values();

  private final List<List<Spell>> spells = new ArrayList<>();
  private final int[] next;
  private final long[] endTick;
  private final double[] size;
  private final boolean[] began;

  /** For so many cups and days, at a tick of that many minutes. */
  public FaultPlan(FaultLevel level, int cups, int days, double tickMin, long seed) {
    SplittableRandom root = new SplittableRandom(seed);
    int count = cups * KINDS.length;
    this.next = new int[count];
    this.endTick = new long[count];
    this.size = new double[count];
    this.began = new boolean[count];
    for (int cup = 0; cup < cups; cup++) {
      for (InjectedFault kind : KINDS) {
        SplittableRandom random = root.split();
        boolean happens = kind.from.ordinal() <= level.ordinal();
        spells.add(happens ? draw(kind, days, tickMin, random) : List.of());
      }
    }
  }

  private static List<Spell> draw(
      InjectedFault kind, int days, double tickMin, SplittableRandom random) {
    List<Spell> drawn = new ArrayList<>();
    double perDay = 24 * 60 / tickMin;
    double day = 0;
    while (true) {
      day -= kind.meanDaysBetween * StrictMath.log(1 - random.nextDouble());
      if (day >= days) {
        return drawn;
      }
      double hours = kind.leastH + (kind.mostH - kind.leastH) * random.nextDouble();
      double size = kind.leastSize + (kind.mostSize - kind.leastSize) * random.nextDouble();
      long from = (long) (day * perDay);
      long to = Math.max(from + 1, from + (long) (hours / 24 * perDay));
      drawn.add(new Spell(from, to, size));
      day += hours / 24;
    }
  }

  /** Moves on to a tick; ticks are asked in order. */
  public void reach(long tick) {
    for (int i = 0; i < next.length; i++) {
      began[i] = false;
      List<Spell> own = spells.get(i);
      if (next[i] < own.size() && own.get(next[i]).fromTick() <= tick) {
        Spell spell = own.get(next[i]++);
        endTick[i] = spell.toTick();
        size[i] = spell.size();
        began[i] = true;
      } else if (endTick[i] <= tick) {
        endTick[i] = 0;
      }
    }
  }

  /** Whether that fault holds at that cup now. */
  public boolean holds(InjectedFault kind, int cup) {
    return endTick[index(kind, cup)] > 0;
  }

  /** Whether it began at this very tick. */
  public boolean began(InjectedFault kind, int cup) {
    return began[index(kind, cup)];
  }

  /** The size of the fault that holds now. */
  public double size(InjectedFault kind, int cup) {
    return size[index(kind, cup)];
  }

  /** A person has put it right. */
  public void mend(InjectedFault kind, int cup) {
    endTick[index(kind, cup)] = 0;
  }

  private static int index(InjectedFault kind, int cup) {
    return cup * KINDS.length + kind.ordinal();
  }
}
