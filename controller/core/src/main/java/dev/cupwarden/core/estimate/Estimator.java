package dev.cupwarden.core.estimate;

import java.time.Duration;

/**
 * One look at one cup: reading and state in, state and events out.
 *
 * <p>The chain reads from top to bottom in {@link #step}: what the weather and the orders since the
 * last look lead to expect; range; standstill; then either {@link Settling}, while the weight is
 * not believed, or {@link Following}, while it is. A look without a reading only moves time.
 *
 * <p>Safe for use by many threads; it keeps nothing between calls.
 */
public final class Estimator {
  /** A reading is too old after so many ticks, but never sooner than twelve minutes. */
  private static final double SILENT_TICKS = 2.4;

  private static final Duration LEAST_SILENT = Duration.ofMinutes(12);

  private final Duration silentAfter;
  private final Following following;

  public Estimator(EstimatorSettings settings) {
    Duration ticks = Duration.ofMillis(Math.round(settings.tick().toMillis() * SILENT_TICKS));
    silentAfter = ticks.compareTo(LEAST_SILENT) > 0 ? ticks : LEAST_SILENT;
    following = new Following(silentAfter);
  }

  /**
   * The state after that look.
   *
   * @param frame the bench file's prediction of the cup's weights; what was learned of its capacity
   *     is put over it here
   */
  public EstimateStep step(EstimateState state, WeightFrame frame, CupReading reading) {
    Look look = new Look(state, frame, reading);
    double massG = reading.massG();
    if (!Double.isNaN(massG)) {
      read(look, massG);
      look.readAt = look.at;
      look.freshUntil = look.at.plus(silentAfter);
    }
    return new EstimateStep(look.state(), look.events);
  }

  private void read(Look look, double massG) {
    look.standstill =
        look.standstill == null
            ? Standstill.begin(look.at, massG, look.noise.sdG())
            : look.standstill.next(
                look.reading, learnedRate(look), look.change, look.hoursUnread, look.noise.sdG());
    if (look.reading.covered()) {
      look.standstill = look.standstill.meant(look.at);
    }
    switch (RangeCheck.judge(massG, look.frame)) {
      case LIFTED -> lifted(look, massG);
      case OUT_OF_RANGE -> outOfRange(look, massG);
      case PLAUSIBLE -> plausible(look, massG);
    }
  }

  private void plausible(Look look, double massG) {
    if (look.standstill.stuck(look.at)) {
      double minutes = look.standstill.minutes(look.at);
      disbelieve(look, Fault.STUCK, massG, minutes, Standstill.STUCK_MIN);
      return;
    }
    listen(look, massG);
    if (look.excursion != null) {
      Settling.read(look);
    } else if (look.filter == null) {
      look.filter = LoadFilter.begin(look.at, massG, look.readingNoiseVar(), look.guessGPerH());
      look.awaitedMl = 0;
    } else {
      following.read(look);
    }
    if (!look.events.isEmpty() || look.drainage != null) {
      look.noise = look.noise.interrupted();
    }
  }

  /** Noise is what a load shows that only dries. */
  private static void listen(Look look, double massG) {
    if (look.firstAfterOrder()) {
      look.noise = look.noise.interrupted();
    } else {
      double rounding = look.standstill.roundingSdG();
      look.noise = look.noise.read(look.at, massG, rounding * rounding);
    }
  }

  private static void lifted(Look look, double massG) {
    boolean news = look.excursion == null || look.excursion.fault() != Fault.LIFTED;
    if (news && look.filter != null) {
      look.tell(new WeightEvent.Lifted(look.at, look.filter.massG()));
    }
    disbelieve(look, Fault.LIFTED, massG, 0, Excursion.QUIET_MIN);
  }

  /** No weight of this cup; but a load that stays is something that stands there in its stead. */
  private static void outOfRange(Look look, double massG) {
    disbelieve(look, Fault.OUT_OF_RANGE, massG, massG, RangeCheck.boundG(massG, look.frame));
    LoadFilter before = look.excursion.before();
    if (look.excursion.newStranger(look.lastReadG, massG)) {
      look.tell(new WeightEvent.Exchanged(look.at, before.predict(look.at).massG(), massG));
      look.excursion = look.excursion.withStranger(massG);
    } else if (look.excursion.driedStranger(massG)) {
      // It dries there like any cup.
      look.excursion = look.excursion.withStranger(massG);
    }
  }

  /** The cup as it was before stays known as a forecast; what it is now must show again. */
  private static void disbelieve(
      Look look, Fault fault, double massG, double value, double threshold) {
    Excursion now = look.excursion;
    LoadFilter before = now == null ? before(look, fault) : now.before();
    // A cup that was lifted has been handled, whatever its scale shows next.
    boolean stays = now != null && now.fault() == Fault.LIFTED;
    look.excursion =
        new Excursion(
            stays ? Fault.LIFTED : fault,
            before,
            now == null ? massG : now.farther(massG),
            null,
            now == null ? 0 : now.breaks(),
            now == null ? 0 : now.ownMl(),
            value,
            threshold,
            now == null ? 0 : now.strangerG());
    look.doubt = null;
    look.drainage = null;
    look.noise = look.noise.interrupted();
  }

  /** A stuck scale has fed the filter its own stillness: the rate is what it was before. */
  private static LoadFilter before(Look look, Fault fault) {
    if (fault == Fault.STUCK && look.filter != null && look.standstill.rateGPerH() >= 0) {
      double rate = look.standstill.rateGPerH();
      return look.filter.withRate(rate, rate * rate / 4);
    }
    return look.filter;
  }

  private static double learnedRate(Look look) {
    return look.filter != null && CupEstimate.rateKnown(look.filter)
        ? Math.max(0, look.filter.rateGPerH())
        : -1;
  }
}
