package dev.cupwarden.core.estimate;

import java.time.Duration;

/**
 * Readings of a cup whose weight is believed. Each is one of: a member of the series; the rise
 * after our own passes; a first reading in doubt; the second that shows what the first was.
 */
final class Following {
  /** A pass may bring this much more than ordered and still be the pass. */
  private static final double DOSE_PART_OVER = 1.2;

  private static final double DOSE_G_OVER = 3;

  /** Two readings of one change agree within this part of it: water still draining. */
  private static final double AGREE_PART = 0.1;

  /** No cup loses its available water in less time by drying, h (common practice: two days). */
  private static final double FASTEST_H = 24;

  /** After so long without a look what drained can no longer be told from what dried, h. */
  static final double LONGEST_DRAINING_H = 2;

  /** Half of what the last two or three readings show (our choice). */
  private static final double PULL_KEPT = 0.7;

  /** Three standard deviations of such a mean of white noise. */
  private static final double PULLED_SDS = 1.26;

  private final double gapH;

  Following(Duration silentAfter) {
    gapH = silentAfter.toMillis() / 3.6e6;
  }

  void read(Look look) {
    double warmC = look.weather.warmC();
    double noiseVar = look.readingNoiseVar();
    double readingVar = look.filter.readingVar(warmC, noiseVar);
    double surpriseG = look.reading.massG() - look.filter.expectedG(warmC);
    double limitG = HampelGate.limitG(readingVar);
    boolean beyond = Math.abs(surpriseG) > limitG;
    if (look.firstAfterOrder() && isOwnDose(look, surpriseG, limitG)) {
      ownDose(look, surpriseG);
    } else if (look.hoursUnread > gapH) {
      overGap(look, surpriseG, limitG, noiseVar);
    } else if (look.drainage != null && surpriseG < 0 && drains(look)) {
      member(look, surpriseG, noiseVar);
    } else if (!beyond) {
      pulled(look, surpriseG, readingVar);
      double nowVar = look.filter.readingVar(warmC, noiseVar);
      member(look, HampelGate.clip(surpriseG, nowVar), noiseVar);
    } else if (look.awaitedOpen() && isOwnDose(look, surpriseG, limitG)) {
      ownDose(look, surpriseG);
    } else if (look.doubt == null) {
      look.doubt = new Doubt(look.at, look.correctedG(), surpriseG);
    } else {
      second(look, surpriseG, limitG);
    }
    checkNoise(look);
  }

  /**
   * A single reading after a gap. Anything may have happened: it is taken as it is. A cup that
   * weighs more than it did has got water; one that fell by more than any cup dries was handled;
   * else it dried, if faster or slower than was thought.
   */
  private static void overGap(Look look, double surpriseG, double limitG, double noiseVar) {
    double hours = look.hoursUnread;
    double lastG = look.lastReadG;
    double leftG = surpriseG;
    if (look.doubt != null) {
      double spikeG = look.doubt.surpriseG();
      double stepG = stepInDoubtG(look, surpriseG);
      leftG -= stepG;
      lastG -= spikeG - stepG;
    }
    double riseG = look.reading.massG() - lastG;
    double fastestG = look.frame.availableMl() / FASTEST_H * hours;
    boolean rose = riseG > HampelGate.limitG(2 * noiseVar) && leftG > 0;
    boolean fell = -leftG > limitG && -riseG > fastestG + HampelGate.limitG(noiseVar);
    if (rose || fell) {
      changed(look, leftG);
      return;
    }
    if (hours > LONGEST_DRAINING_H) {
      look.drainage = null;
      // Over hours the rate is in doubt by more than any cell drifts: the load explains the rest.
      look.filter = look.filter.apartFromWarmth();
    }
    if (Math.abs(leftG) > limitG) {
      look.filter = look.filter.doubtRate(Math.abs(leftG) / hours, hours);
    }
    member(look, leftG, noiseVar);
  }

  /** A reading was left in doubt before the gap; this one is nearer to one of its two readings. */
  private static double stepInDoubtG(Look look, double surpriseG) {
    Doubt doubt = look.doubt;
    double stepG = doubt.surpriseG();
    look.doubt = null;
    if (Math.abs(surpriseG - stepG) >= Math.abs(surpriseG)) {
      return 0;
    }
    double beforeG = doubt.massG() - stepG;
    look.tell(
        stepG > 0
            ? new WeightEvent.HandWatering(doubt.at(), beforeG, stepG)
            : new WeightEvent.Returned(doubt.at(), beforeG, stepG));
    look.filter = look.filter.jumpTo(look.filter.massG() + stepG, look.filter.varM());
    return stepG;
  }

  /** Just filled, and still so heavy that falling may be draining. */
  private static boolean drains(Look look) {
    return Drainage.begin(look.at, look.correctedG(), look.frame) != null;
  }

  private static boolean isOwnDose(Look look, double surpriseG, double limitG) {
    return surpriseG >= -limitG
        && surpriseG <= look.awaitedMl * DOSE_PART_OVER + DOSE_G_OVER + limitG;
  }

  private static void ownDose(Look look, double gainG) {
    double beforeG = look.filter.massG();
    boolean first = look.firstAfterOrder();
    look.tell(new WeightEvent.OwnDose(look.at, beforeG, gainG, first ? look.awaitedMl : 0));
    // What did not show may come late; what showed is no longer awaited.
    look.awaitedMl = Math.max(0, look.awaitedMl - Math.max(0, gainG));
    jump(look, gainG);
  }

  private static void jump(Look look, double changeG) {
    double beforeG = look.filter.massG();
    LoadFilter there = look.filter.jumpTo(beforeG + changeG, look.readingNoiseVar());
    double revives = DryFall.of(look.frame).times(beforeG, there.massG());
    look.filter = revives == 1 ? there : there.changeRate(revives);
    look.creep = look.creep.after(look.at, changeG);
    look.pull = 0;
    look.drainage = Drainage.begin(look.at, look.filter.massG(), look.frame);
    look.doubt = null;
  }

  private static void member(Look look, double surpriseG, double noiseVar) {
    LoadFilter forecast = look.filter;
    look.doubt = null;
    if (look.drainage != null) {
      look.filter =
          forecast
              .jumpTo(look.correctedG(), noiseVar)
              .withRate(forecast.rateGPerH(), forecast.varR());
      drain(look);
      return;
    }
    look.filter = forecast.update(surpriseG, look.weather.warmC(), noiseVar);
    double hours = look.hoursUnread;
    double lossG = forecast.rateGPerH() * hours + forecast.massG() - look.filter.massG();
    look.use = look.use.add(lossG, hours, look.weather.driveKpa());
    double driveKpa = look.weather.driveKpa();
    look.byLight = look.byLight.add(lossG, hours, driveKpa);
    look.day = look.day.add(lossG, hours, driveKpa, look.reading.light().hour());
  }

  /**
   * Readings that keep lying on one side are no noise: the rate is not what it was. The filter is
   * told so, and follows within some looks.
   */
  private static void pulled(Look look, double surpriseG, double readingVar) {
    double sds = HampelGate.clip(surpriseG, readingVar) / Math.sqrt(readingVar);
    look.pull = PULL_KEPT * look.pull + (1 - PULL_KEPT) * sds;
    if (Math.abs(look.pull) > PULLED_SDS && look.pull * sds > 0 && look.hoursUnread > 0) {
      double sinceH = look.hoursUnread / (1 - PULL_KEPT);
      look.filter = look.filter.doubtRate(Math.abs(surpriseG) / sinceH, look.hoursUnread);
    }
  }

  private static void checkNoise(Look look) {
    if (look.excursion == null && look.noise.tooGreat()) {
      look.excursion =
          new Excursion(
              Fault.NOISY,
              look.filter,
              look.reading.massG(),
              null,
              0,
              0,
              look.noise.sdG(),
              Noise.TOO_GREAT_SD_G,
              0);
    }
  }

  private static void drain(Look look) {
    Drainage drainage = look.drainage;
    double massG = look.filter.massG();
    if (!drainage.due(look.at)) {
      return;
    }
    if (drainage.tooLong(look.at)) {
      look.drainage = null;
    } else if (!drainage.atRest(look.at, massG, look.filter.rateGPerH())) {
      look.drainage = drainage.marked(look.at, massG, look.filter.rateGPerH());
    } else {
      if (drainage.drained(look.at, massG, look.filter.rateGPerH())) {
        look.capacity = look.capacity.found(look.at, massG);
        look.tell(new WeightEvent.Drained(look.at, massG));
      }
      look.drainage = null;
    }
  }

  private static void second(Look look, double surpriseG, double limitG) {
    double toleranceG = Math.max(limitG, AGREE_PART * Math.abs(surpriseG));
    if (look.doubt.confirmedBy(look.correctedG(), toleranceG)) {
      changed(look, surpriseG);
    } else {
      // Two readings out of line that do not agree: something is still going on.
      LoadFilter before = look.filter;
      Excursion moved =
          new Excursion(
              Fault.MOVED, before, look.doubt.massG(), look.at, 0, 0, 0, Excursion.QUIET_MIN, 0);
      look.excursion = moved;
      look.doubt = null;
      look.filter = before.jumpTo(look.correctedG(), look.readingNoiseVar());
      look.creep = look.creep.after(look.at, surpriseG);
    }
  }

  /** A change that is no member, no dose of ours and no spike. */
  private static void changed(Look look, double changeG) {
    LoadFilter before = look.filter;
    if (changeG > 0) {
      if (look.awaitedOpen()) {
        look.tell(new WeightEvent.OwnDose(look.at, before.massG(), changeG, look.awaitedMl));
        look.awaitedMl = 0;
      } else {
        look.tell(new WeightEvent.HandWatering(look.at, before.massG(), changeG));
      }
      jump(look, changeG);
      return;
    }
    var since = look.doubt == null ? look.at : look.doubt.at();
    jump(look, changeG);
    look.drainage = null;
    look.tell(new WeightEvent.Returned(look.at, before.massG(), changeG));
    look.excursion =
        new Excursion(
            Fault.MOVED, null, look.reading.massG(), since, 0, 0, 0, Excursion.QUIET_MIN, 0);
  }
}
