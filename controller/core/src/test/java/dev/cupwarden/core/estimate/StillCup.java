package dev.cupwarden.core.estimate;

import java.time.Duration;

/**
 * A cup's state typed in by hand, so that the next look can be worked out: it weighs 320 g as
 * exactly as can be and loses nothing, its scale shows tenths and has a noise of 0.1 g. So a
 * reading belongs within the least step of 2 g. Of 240 mL between 160 and 400 g it loses ten an
 * hour at most, and slows from 256 g on.
 */
final class StillCup {
  static final WeightFrame FRAME = new WeightFrame(100, 400, 500, 240);
  private static final Duration FRESH = Duration.ofMinutes(12);

  LoadFilter filter = weighs(320, 0);
  Weather weather = Weather.UNKNOWN;
  Standstill standstill = showed(320);
  Doubt doubt;
  Excursion excursion;
  Noise noise = Noise.GUESS;
  double awaitedMl;
  Drainage drainage;
  LightUse byLight = LightUse.NONE;
  DayProfile day = DayProfile.NONE;
  double pull;

  static LoadFilter weighs(double massG, double rateGPerH) {
    return new LoadFilter(Cups.START, massG, rateGPerH, 0, 0, 0, 0, 0, 0, 0);
  }

  /** A display of tenths, whatever was shown last. */
  static Standstill showed(double massG) {
    return new Standstill(massG, Cups.START, 1, false, 0.1, -1, 0, 0.1);
  }

  EstimateState state() {
    return new EstimateState(
        Cups.START,
        Cups.START,
        Cups.START.plus(FRESH),
        filter,
        weather,
        standstill,
        doubt,
        excursion,
        Creep.NONE,
        noise,
        awaitedMl,
        awaitedMl > 0 ? Cups.START.plusSeconds(1) : null,
        DryingUse.NONE,
        drainage,
        Capacity.PREDICTED,
        byLight,
        day,
        pull);
  }

  /** One look so many minutes after that state. */
  EstimateStep reads(double minutes, double massG) {
    return step(CupReading.of(Cups.START.plusMillis(Math.round(60_000 * minutes)), massG));
  }

  EstimateStep step(CupReading reading) {
    return new Estimator(new EstimatorSettings(Duration.ofMinutes(5)))
        .step(state(), FRAME, reading);
  }
}
