package dev.cupwarden.core.watering;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;

/**
 * What a cup's weight fell by in the last day, in slots of four hours. Only drying counts: what
 * runs out of a cup that was filled beyond its capacity is no loss.
 *
 * @param closed slots that are over, oldest first, at most seven
 * @param open the slot that runs; null before the first loss
 */
public record LossLog(List<Slot> closed, Slot open) {
  public static final LossLog EMPTY = new LossLog(List.of(), null);

  /** Eight hours of dark hold one slot of four wholly, whenever they begin. */
  static final Duration SLOT = Duration.ofHours(4);

  private static final long SLOT_S = SLOT.toSeconds();

  private static final Duration DAY = Duration.ofHours(24);

  /** A slot of which less was seen says nothing of itself. */
  private static final double LEAST_SEEN_H = 3.0;

  /** One slot of a day may be missing: a cup taken out, a scale that was silent. */
  private static final int LEAST_SLOTS = 5;

  /**
   * Four hours.
   *
   * @param from a multiple of four hours UTC
   * @param lostG in all of it, what was lost over gaps in it as well
   * @param foretoldG by rate, light and air for all of it
   * @param seenG of it what was seen from reading to reading
   * @param seenH hours of that
   * @param driveKpaH drying power of the air over those hours
   * @param lightH light over those hours, µmol/m²/s times h; NaN: unknown
   */
  public record Slot(
      Instant from,
      double lostG,
      double foretoldG,
      double seenG,
      double seenH,
      double driveKpaH,
      double lightH) {
    private Slot plus(Slot more) {
      return new Slot(
          from,
          lostG + more.lostG,
          foretoldG + more.foretoldG,
          seenG + more.seenG,
          seenH + more.seenH,
          driveKpaH + more.driveKpaH,
          lightH + more.lightH);
    }

    boolean known() {
      return seenH >= LEAST_SEEN_H && driveKpaH > 0.0;
    }

    double perKpa() {
      return seenG / driveKpaH;
    }
  }

  /**
   * A whole day's use.
   *
   * @param perKpa loss over drying power, g/h and kPa
   * @param quietPerKpa likewise in the quietest slot
   * @param peakPerKpa likewise in the busiest
   * @param driveKpa mean drying power
   * @param light mean, µmol/m²/s; NaN: unknown
   */
  public record Day(
      double perKpa, double quietPerKpa, double peakPerKpa, double driveKpa, double light) {}

  /** The log after something was lost in the hours before that time. */
  public LossLog plus(Instant at, Slot more) {
    if (open != null && !slotEnds(at)) {
      return new LossLog(closed, open.plus(more));
    }
    Instant from = slotOf(at);
    Slot next =
        new Slot(
            from, more.lostG, more.foretoldG, more.seenG, more.seenH, more.driveKpaH, more.lightH);
    if (open == null) {
      return new LossLog(closed, next);
    }
    List<Slot> kept = new ArrayList<>(closed.size() + 1);
    Instant oldest = from.minus(DAY).minus(SLOT);
    for (Slot slot : closed) {
      if (!slot.from().isBefore(oldest)) {
        kept.add(slot);
      }
    }
    kept.add(open);
    return new LossLog(List.copyOf(kept), next);
  }

  /** Whether a loss at that time would begin another slot. */
  public boolean slotEnds(Instant at) {
    return open != null && slot(at.getEpochSecond()) != slot(open.from().getEpochSecond());
  }

  private static Instant slotOf(Instant at) {
    return Instant.ofEpochSecond(slot(at.getEpochSecond()) * SLOT_S);
  }

  private static long slot(long epochSecond) {
    return Math.floorDiv(epochSecond, SLOT_S);
  }

  /**
   * Grams lost in the 24 h before that time, at most twice what was foretold; of the slot that
   * began before, its later part.
   */
  public double lostInDayG(Instant at) {
    Instant dayAgo = at.minus(DAY);
    double sumG = open == null ? 0.0 : open.lostG();
    double foretoldG = open == null ? 0.0 : open.foretoldG();
    for (Slot slot : closed) {
      double part = partAfter(slot, dayAgo);
      sumG += part * slot.lostG();
      foretoldG += part * slot.foretoldG();
    }
    return Math.max(0.0, Math.min(sumG, WaterAccount.MOST_TIMES * foretoldG));
  }

  private static double partAfter(Slot slot, Instant then) {
    double after = Duration.between(then, slot.from().plus(SLOT)).toMillis();
    return Math.max(0.0, Math.min(1.0, after / SLOT.toMillis()));
  }

  /** The day that ended with the last closed slot; null where too little of it was seen. */
  public Day day() {
    List<Slot> slots = lastDay();
    if (slots.size() < LEAST_SLOTS) {
      return null;
    }
    double lostG = 0.0;
    double hours = 0.0;
    double driveKpaH = 0.0;
    double lightH = 0.0;
    double quiet = Double.POSITIVE_INFINITY;
    double peak = 0.0;
    for (Slot slot : slots) {
      lostG += slot.seenG();
      hours += slot.seenH();
      driveKpaH += slot.driveKpaH();
      lightH += slot.lightH();
      quiet = Math.min(quiet, slot.perKpa());
      peak = Math.max(peak, slot.perKpa());
    }
    return new Day(
        Math.max(0.0, lostG / driveKpaH),
        Math.max(0.0, quiet),
        peak,
        driveKpaH / hours,
        lightH / hours);
  }

  /**
   * By how much each slot of the last day lost more than that, at least, g/h; NaN where too little
   * of the day was seen. A drift is there in every slot; leaves and a lamp rest in one.
   */
  double leastExcessGPerH(double perKpa) {
    List<Slot> slots = lastDay();
    double least = Double.POSITIVE_INFINITY;
    for (Slot slot : slots) {
      least = Math.min(least, (slot.seenG() - perKpa * slot.driveKpaH()) / slot.seenH());
    }
    return slots.size() < LEAST_SLOTS ? Double.NaN : least;
  }

  /** The same over the last two slots alone; NaN where one of them was not seen. */
  double latestExcessGPerH(double perKpa) {
    double least = Double.POSITIVE_INFINITY;
    for (Slot slot : latest()) {
      double excess = (slot.seenG() - perKpa * slot.driveKpaH()) / slot.seenH();
      least = slot.known() ? Math.min(least, excess) : Double.NaN;
    }
    return closed.size() < 2 ? Double.NaN : least;
  }

  /** How much the air of the last two slots dried, kPa of vapour pressure deficit at the mean. */
  double latestDriveKpa() {
    double driveKpaH = 0.0;
    double hours = 0.0;
    for (Slot slot : latest()) {
      driveKpaH += slot.driveKpaH();
      hours += slot.seenH();
    }
    return driveKpaH / hours;
  }

  /** The last two slots, or what there is of them. */
  private List<Slot> latest() {
    return closed.subList(Math.max(0, closed.size() - 2), closed.size());
  }

  private List<Slot> lastDay() {
    List<Slot> known = new ArrayList<>(7);
    if (!closed.isEmpty()) {
      Instant after = closed.get(closed.size() - 1).from().minus(DAY);
      for (Slot slot : closed) {
        if (slot.from().isAfter(after) && slot.known()) {
          known.add(slot);
        }
      }
    }
    return known;
  }
}
