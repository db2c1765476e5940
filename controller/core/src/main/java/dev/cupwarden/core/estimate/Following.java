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

  /** After so long without a look what drained can no longer be told from what dried, h. */
  private static final double LONGEST_DRAINING_H = 2;

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
    boolean gap = look.hoursUnread > gapH;
    if (look.firstAfterOrder() && isOwnDose(look, surpriseG, limitG)) {
      ownDose(look, surpriseG);
    } else if (Math.abs(surpriseG) <= limitG) {
      member(look, surpriseG, readingVar, noiseVar, gap);
    } else if (look.awaitedOpen() && surpriseG > 0 && isOwnDose(look, surpriseG, limitG)) {
      ownDose(look, surpriseG);
    } else if (gap) {
      changed(look, surpriseG, false);
    } else if (look.doubt == null) {
      look.doubt = new Doubt(look.at, look.correctedG(), surpriseG);
    } else {
      second(look, surpriseG, limitG);
    }
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
    look.filter = look.filter.jumpTo(look.filter.massG() + changeG, look.readingNoiseVar());
    look.creep = look.creep.after(look.at, changeG);
    look.drainage = Drainage.begin(look.at, look.filter.massG(), look.frame);
    look.doubt = null;
  }

  private static void member(
      Look look, double surpriseG, double readingVar, double noiseVar, boolean gap) {
    LoadFilter forecast = look.filter;
    double clippedG = gap ? surpriseG : HampelGate.clip(surpriseG, readingVar);
    LoadFilter next = forecast.update(clippedG, look.weather.warmC(), noiseVar);
    if (look.hoursUnread > LONGEST_DRAINING_H) {
      look.drainage = null;
    }
    if (look.drainage == null) {
      double hours = look.hoursUnread;
      double lossG = forecast.rateGPerH() * hours + forecast.massG() - next.massG();
      look.use = look.use.add(lossG, hours, look.weather.driveKpa());
    } else {
      next =
          next.jumpTo(look.correctedG(), noiseVar).withRate(forecast.rateGPerH(), forecast.varR());
    }
    look.filter = next;
    if (!gap) {
      look.noise = look.noise.learn(surpriseG, readingVar);
    }
    look.doubt = null;
    if (look.drainage != null) {
      drain(look);
    }
    if (look.noise.tooGreat()) {
      look.excursion =
          new Excursion(
              Fault.NOISY,
              forecast,
              look.reading.massG(),
              null,
              0,
              0,
              look.noise.sdG(),
              Noise.GREATEST_SD_G);
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
      look.drainage = drainage.marked(look.at, massG);
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
      changed(look, surpriseG, true);
    } else {
      // Two readings out of line that do not agree: something is still going on.
      LoadFilter before = look.filter;
      Excursion moved =
          new Excursion(
              Fault.MOVED, before, look.doubt.massG(), look.at, 0, 0, 0, Excursion.QUIET_MIN);
      look.excursion = moved;
      look.doubt = null;
      look.filter = before.jumpTo(look.correctedG(), look.readingNoiseVar());
      look.creep = look.creep.after(look.at, surpriseG);
    }
  }

  /** A change that is no member, no dose of ours and no spike. */
  private static void changed(Look look, double changeG, boolean confirmed) {
    LoadFilter before = look.filter;
    if (changeG > 0) {
      if (look.awaitedMl > 0 && look.awaitedOpen()) {
        look.tell(new WeightEvent.OwnDose(look.at, before.massG(), changeG, look.awaitedMl));
        look.awaitedMl = 0;
      } else {
        look.tell(new WeightEvent.HandWatering(look.at, before.massG(), changeG));
      }
      jump(look, changeG);
      return;
    }
    var since = confirmed ? look.doubt.at() : look.at;
    jump(look, changeG);
    look.drainage = null;
    look.tell(new WeightEvent.Returned(look.at, before.massG(), changeG));
    look.excursion =
        new Excursion(Fault.MOVED, null, look.reading.massG(), since, 0, 0, 0, Excursion.QUIET_MIN);
  }
}
