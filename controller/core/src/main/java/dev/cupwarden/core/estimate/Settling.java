package dev.cupwarden.core.estimate;

/**
 * Readings of a cup whose weight is not believed: they must be plausible and agree for ten minutes,
 * then what happened is told by how the cup came back.
 */
final class Settling {
  private Settling() {}

  static void read(Look look) {
    Excursion excursion = look.excursion;
    double noiseVar = look.readingNoiseVar();
    if (look.filter == null) {
      look.filter = LoadFilter.begin(look.at, look.reading.massG(), noiseVar, look.guessGPerH());
      look.excursion = excursion.quietFrom(look.at);
      return;
    }
    if (excursion.quietSince() == null) {
      resume(look, noiseVar);
      return;
    }
    // After hours without a look the rate is in doubt more than the reading, which is taken as it
    // is.
    boolean gap = look.hoursUnread > Following.LONGEST_DRAINING_H;
    look.filter = gap ? look.filter.apartFromWarmth() : look.filter;
    double warmC = look.weather.warmC();
    double readingVar = look.filter.readingVar(warmC, noiseVar);
    double surpriseG = look.reading.massG() - look.filter.expectedG(warmC);
    double limitG = HampelGate.limitG(readingVar);
    boolean own = surpriseG > limitG && look.awaitedOpen();
    if (Math.abs(surpriseG) <= limitG) {
      double pullsG = gap ? surpriseG : HampelGate.clip(surpriseG, readingVar);
      look.filter = look.filter.update(pullsG, warmC, noiseVar);
      if (excursion.quietLongEnough(look.at) && !look.noise.tooGreat()) {
        conclude(look);
      }
    } else {
      if (own) {
        look.awaitedMl = 0;
      } else {
        look.excursion = excursion.broken(look.at, look.reading.massG(), Math.abs(surpriseG));
      }
      look.filter = look.filter.jumpTo(look.correctedG(), noiseVar);
      look.creep = look.creep.after(look.at, surpriseG);
    }
  }

  /** The first plausible reading. What the cup loses in a day is not unlearned by a fault. */
  private static void resume(Look look, double noiseVar) {
    Excursion excursion = look.excursion;
    LoadFilter before = excursion.before();
    double massG = look.correctedG();
    LoadFilter from = before == null ? look.filter : before.predict(look.at);
    look.filter = from.jumpTo(massG, noiseVar);
    boolean reloaded = excursion.fault() == Fault.LIFTED;
    look.creep = look.creep.after(look.at, reloaded ? massG : 0);
    look.awaitedMl = 0;
    look.excursion = excursion.quietFrom(look.at);
  }

  private static void conclude(Look look) {
    Excursion excursion = look.excursion;
    look.excursion = null;
    LoadFilter before = excursion.before();
    if (before == null || excursion.fault() == Fault.STUCK) {
      return;
    }
    LoadFilter forecast = before.predict(look.at);
    double changeG = look.filter.massG() - forecast.massG();
    double limitG = HampelGate.limitG(forecast.varM() + look.filter.varM());
    double beforeG = forecast.massG();
    if (excursion.strangerTold()) {
      look.tell(new WeightEvent.Exchanged(look.at, excursion.strangerG(), look.filter.massG()));
    }
    if (excursion.fault() == Fault.LIFTED) {
      look.tell(new WeightEvent.Returned(look.at, beforeG, changeG));
    } else if (changeG > limitG && excursion.ownMl() > 0) {
      look.tell(new WeightEvent.OwnDose(look.at, beforeG, changeG, excursion.ownMl()));
    } else if (changeG > limitG) {
      look.tell(new WeightEvent.HandWatering(look.at, beforeG, changeG));
    } else if (changeG < -limitG) {
      look.tell(new WeightEvent.Returned(look.at, beforeG, changeG));
    } else if (Math.abs(excursion.peakG() - beforeG) > limitG) {
      look.tell(new WeightEvent.Leaned(look.at, beforeG, excursion.peakG()));
    }
    if (changeG > limitG) {
      look.drainage = Drainage.begin(look.at, look.filter.massG(), look.frame);
    }
  }
}
