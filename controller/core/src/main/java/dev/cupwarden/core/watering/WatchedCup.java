package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What a cup on a bench that is only watched would have been given, beside what a person gave it.
 * Each watering is held against the cup as the person keeps it: how it would stand if it had been
 * watered otherwise before, nobody knows. Not for more than one thread.
 */
public final class WatchedCup {
  /** A person comes to the bench in the morning or in the evening: our choice. */
  public static final Duration SOON = Duration.ofHours(12);

  /** Who waters in portions is done by then, and the mix has drained: our choice. */
  public static final Duration ONE_WATERING = Duration.ofHours(1);

  /** Amounts that differ by less than this part, or by {@link #ALIKE_ML}, are alike: our choice. */
  static final double ALIKE_PART = 0.25;

  static final double ALIKE_ML = 5.0;

  /** How a person's watering stands to what the program would have done. */
  public enum Beside {
    /** Within {@link #SOON} of each other. */
    ALIKE,
    LATER,
    /** The cup was not due. */
    EARLIER,
    /** The cup was due, and a limit held the program back. */
    HELD,
    /** The program would have watered, and nobody has. */
    NOT_GIVEN
  }

  /**
   * The cup at one look, before a person's water that is seen then.
   *
   * @param depletion NaN where nobody knows it
   * @param roomMl missing up to the refill line; negative past it
   * @param wish what the program would give now; null where it would give nothing
   * @param heldBy limits that hold it back
   * @param dueAt when it is likely due; null where nobody knows
   */
  public record Moment(
      Instant at,
      double depletion,
      CupLines lines,
      double roomMl,
      Wish wish,
      List<String> heldBy,
      Instant dueAt) {}

  /**
   * Why the program would water, and how strong.
   *
   * @param strength as a part of the label's; 0 is plain water
   */
  public record Wish(String why, double strength) {}

  /** Water of a person, as they told it or as the weight rose. */
  public record Can(Instant at, double ml) {}

  /**
   * One watering, by the program, by hand, or both.
   *
   * @param would the cup when the program would have begun; null where it would not
   * @param before the cup at the last look before the hand's water; null where none came
   * @param handAt when the hand's first water was seen; null where none came
   * @param handMl all of the hand's within {@link #ONE_WATERING}
   * @param driest greatest depletion that the cup came to meanwhile
   * @param tooWet whether it stood beyond its wet line once it had drained
   */
  public record Watering(
      Beside beside,
      Moment would,
      Moment before,
      Instant handAt,
      double handMl,
      double driest,
      boolean tooWet) {
    /** What the program would have given at the hand's time, up to the refill line. */
    public double wouldMl() {
      Moment then = before == null ? would : before;
      return Math.max(0.0, then.roomMl());
    }

    /** By how much the hand gave more; negative where less. */
    public double moreMl() {
      return handMl - wouldMl();
    }

    /** Whether a grower should look at it. */
    public boolean differs() {
      boolean otherMl =
          Math.abs(moreMl()) > Math.max(ALIKE_ML, ALIKE_PART * wouldMl()) && handAt != null;
      return beside != Beside.ALIKE || otherMl || tooWet;
    }
  }

  private final List<Watering> waterings = new ArrayList<>();
  private Moment asked;
  private Moment last;
  private double driest = Double.NaN;
  private Watering open;
  private Instant lastCanAt;

  /**
   * The next look.
   *
   * @param cans what a person gave since the look before
   */
  public void see(Moment now, List<Can> cans) {
    close(now);
    for (Can can : cans) {
      take(can);
    }
    if (now.wish() != null && open == null && asked == null) {
      asked = now;
      driest = Double.NaN;
    }
    driest = Double.isNaN(driest) ? now.depletion() : Math.max(driest, now.depletion());
    last = now;
  }

  /** All waterings so far, in order. */
  public List<Watering> waterings() {
    List<Watering> all = new ArrayList<>(waterings);
    if (open != null) {
      all.add(open);
    }
    if (asked != null) {
      all.add(new Watering(Beside.NOT_GIVEN, asked, null, null, 0.0, driest, false));
    }
    return List.copyOf(all);
  }

  private void take(Can can) {
    lastCanAt = can.at();
    if (open != null) {
      open =
          new Watering(
              open.beside(),
              open.would(),
              open.before(),
              open.handAt(),
              open.handMl() + can.ml(),
              open.driest(),
              false);
    } else if (last != null) {
      open = new Watering(beside(can), asked, last, can.at(), can.ml(), driest, false);
      asked = null;
      driest = Double.NaN;
    }
  }

  private Beside beside(Can can) {
    if (asked != null) {
      return can.at().isAfter(asked.at().plus(SOON)) ? Beside.LATER : Beside.ALIKE;
    }
    return last.depletion() > last.lines().due() ? Beside.HELD : Beside.EARLIER;
  }

  /** Once a person's watering is over, what it came to is seen. */
  private void close(Moment now) {
    if (open != null && now.at().isAfter(lastCanAt.plus(ONE_WATERING))) {
      boolean tooWet = now.depletion() < now.lines().wet();
      waterings.add(
          new Watering(
              open.beside(),
              open.would(),
              open.before(),
              open.handAt(),
              open.handMl(),
              open.driest(),
              tooWet));
      open = null;
    }
  }
}
