package dev.cupwarden.core.watering;

import java.time.Instant;

/**
 * Judges a cup's last day when four hours of it are over: what is usual is learned, and what
 * nothing explains is laid up as {@link ScaleDrift}. All figures are our choice.
 */
public final class WatchDrift {
  /** Lit so many times as much, leaves may draw as many times as much, and no more. */
  private static final double MOST_LIGHT = 4.0;

  private static final double DIM = 20.0;

  /** Use that doubles in its quietest hours within a day... */
  private static final double DOUBLED = 1.0;

  /** ...by so much at least, g/h... */
  private static final double LEAST_DOUBLING_G_PER_H = 0.3;

  /** ...and to so much that it matters, as a part of the available water. */
  private static final double MATTERS = 0.1;

  /** Three times the busiest hours of late for eight hours no cup uses. */
  private static final double TIMES_PEAK = 3.0;

  private static final double LEAST_LEAP_G_PER_H = 1.0;

  private WatchDrift() {}

  /**
   * The bench's middle cup, as its loss stands to what is usual.
   *
   * @param use over the whole day; NaN: too few cups are known
   * @param quiet in the quietest hours; NaN: likewise
   */
  public record Neighbours(double use, double quiet) {}

  /** After a slot was closed. */
  public static WaterAccount slotOver(
      WaterAccount was, Instant at, Neighbours others, double availableMl) {
    LossLog.Day day = was.losses().day();
    UsualUse usual = was.usual();
    if (day == null) {
      return usual.known() ? leap(was, at, 1.0, availableMl) : was;
    }
    if (!usual.known()) {
      return usual.due(at) ? was.usual(usual.day(at, day, Double.NaN)) : was;
    }
    double lit = lit(day, usual);
    double more = Math.max(Math.max(1.0, orOne(others.use())), lit);
    WaterAccount now = suspect(was.more(more), at, day, Math.max(1.0, orOne(others.quiet())));
    if (now.drift().since() == null && usual.due(at)) {
      double quiet = usual.quietPerKpa() * day.driveKpa();
      double excess = now.losses().leastExcessGPerH(usual.quietPerKpa());
      now = now.usual(usual.day(at, day, quiet > 0.0 ? excess / quiet : Double.NaN));
    }
    return leap(now, at, more, availableMl);
  }

  private static double orOne(double ratio) {
    return Double.isNaN(ratio) ? 1.0 : ratio;
  }

  private static double lit(LossLog.Day day, UsualUse usual) {
    double ratio = (day.light() + DIM) / (usual.light() + DIM);
    return Double.isNaN(ratio) ? 1.0 : Math.max(1.0, Math.min(MOST_LIGHT, ratio));
  }

  /**
   * Lays up what the quietest hours of the day lost beyond what is usual; or, before a day is over,
   * what the last eight hours lost beyond the busiest of late.
   */
  private static WaterAccount suspect(
      WaterAccount was, Instant at, LossLog.Day day, double quietTimes) {
    UsualUse usual = was.usual();
    double quiet = usual.quietPerKpa() * quietTimes;
    double excess = was.losses().leastExcessGPerH(quiet);
    double sure = usual.surelyMoreGPerH(usual.quietPerKpa() * day.driveKpa());
    ScaleDrift drift = was.drift();
    if (excess > sure || (drift.since() != null && excess > sure / 2.0)) {
      ScaleDrift more = laidUp(drift, at, 24, excess, quiet * day.driveKpa());
      double part = more.seenGPerH() / more.foretoldGPerH() - 1.0;
      return was.drift(more.atLeast(Math.max(part, drift.mostPart())));
    }
    double peak = was.more() * usual.peakPerKpa();
    double beyond = was.losses().latestExcessGPerH(peak);
    if (beyond > usual.surelyMoreGPerH(peak * day.driveKpa())) {
      ScaleDrift more = laidUp(drift, at, 8, beyond, peak * day.driveKpa());
      return was.drift(more.atLeast(drift.mostPart()));
    }
    return drift.since() == null
        ? was
        : was.usual(usual.varied(drift.mostPart())).drift(ScaleDrift.NONE);
  }

  /** So much more an hour since the last slot; at first, over those hours. */
  private static ScaleDrift laidUp(
      ScaleDrift drift, Instant at, int firstHours, double excess, double foretoldGPerH) {
    boolean first = drift.since() == null;
    double hours = first ? firstHours : LossLog.SLOT.toHours();
    Instant since = first ? at.minusSeconds(3600L * firstHours) : drift.since();
    double unexplainedG = drift.unexplainedG() + excess * hours;
    return ScaleDrift.suspected(since, unexplainedG, foretoldGPerH + excess, foretoldGPerH);
  }

  /** A loss that leaps up at once is not waited for until a day is over. */
  private static WaterAccount leap(WaterAccount was, Instant at, double more, double availableMl) {
    UsualUse usual = was.usual();
    double perKpa = more * usual.perKpa();
    double over = was.losses().latestExcessGPerH(perKpa);
    boolean beyond = was.losses().latestExcessGPerH(TIMES_PEAK * more * usual.peakPerKpa()) > 0.0;
    if (!beyond || over < LEAST_LEAP_G_PER_H || was.drift().since() != null) {
      return was;
    }
    double unexplainedG = over * 2.0 * LossLog.SLOT.toHours();
    if (unexplainedG < MATTERS * availableMl) {
      return was;
    }
    Instant since = at.minus(LossLog.SLOT).minus(LossLog.SLOT);
    double foretoldGPerH = perKpa * was.losses().latestDriveKpa();
    return was.drift(
        ScaleDrift.suspected(since, unexplainedG, foretoldGPerH + over, foretoldGPerH));
  }

  /**
   * Whether the scale is to be doubted now: use has doubled, or it asks for water that the cup, by
   * all that is foretold, has no room for.
   *
   * @param wantsWater whether it is due by its scale, or a refill is under way
   * @param roomToWetMl what is unexplained counted as held
   */
  public static boolean doubts(
      ScaleDrift drift,
      boolean wantsWater,
      double roomToWetMl,
      double leastMl,
      double availableMl) {
    if (drift.since() == null || drift.told() || drift.unexplainedG() < MATTERS * availableMl) {
      return false;
    }
    double over = drift.seenGPerH() - drift.foretoldGPerH();
    boolean doubled = over >= DOUBLED * drift.foretoldGPerH() && over >= LEAST_DOUBLING_G_PER_H;
    return doubled || (wantsWater && roomToWetMl < leastMl);
  }
}
