package dev.cupwarden.simulator.second;

import dev.cupwarden.core.setup.Place;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.util.SplittableRandom;

/**
 * Weather before the window: months' means of a temperate town, fronts that pass every few days,
 * and a sun behind broken cloud. Declination by Cooper (1969, Solar Energy 12:333), from memory.
 */
final class Outside {
  /** Means of the twelve months, °C; the project's choice of a town at 50° north. */
  private static final double[] MONTHS_C = {
    3.2, 3.9, 6.8, 10.1, 13.9, 17.0, 19.1, 18.6, 15.2, 11.2, 6.7, 4.0
  };

  /** Fronts each lasting that long, h. */
  private static final int FRONT_H = 54;

  private final Place place;
  private final Instant start;
  private final double[] frontC;
  private final double[] cloud;

  Outside(Place place, Instant start, int days, SplittableRandom random) {
    this.place = place;
    this.start = start;
    int fronts = days * 24 / FRONT_H + 3;
    this.frontC = new double[fronts];
    this.cloud = new double[fronts];
    double airMass = 0;
    for (int i = 0; i < fronts; i++) {
      airMass = 0.55 * airMass + 3.6 * random.nextGaussian();
      frontC[i] = airMass;
      // Under high pressure winter is clear and cold.
      cloud[i] = Math.max(0, Math.min(1, 0.65 + 0.09 * airMass + 0.3 * random.nextGaussian()));
    }
  }

  private double between(double[] ofFronts, Instant at) {
    double h = (at.getEpochSecond() - start.getEpochSecond()) / 3600.0;
    int i = Math.min(ofFronts.length - 2, Math.max(0, (int) (h / FRONT_H)));
    double part = Math.min(1, h / FRONT_H - i);
    return ofFronts[i] + (ofFronts[i + 1] - ofFronts[i]) * part;
  }

  double airC(Instant at) {
    ZonedDateTime clock = at.atZone(place.zone());
    double month = clock.getMonthValue() - 1 + (clock.getDayOfMonth() - 15) / 30.4;
    if (place.latitudeDeg() < 0) {
      month += 6;
    }
    double wrapped = (month % 12 + 12) % 12;
    int from = (int) wrapped;
    double mean = MONTHS_C[from] + (MONTHS_C[(from + 1) % 12] - MONTHS_C[from]) * (wrapped - from);
    double swing = 1.5 + 3.5 * (1 - between(cloud, at));
    double hour = clock.getHour() + clock.getMinute() / 60.0;
    return mean + between(frontC, at) + swing * StrictMath.sin(Math.PI * (hour - 9) / 12);
  }

  /** What comes through the window to the leaves, µmol m⁻² s⁻¹. */
  double lightUmolPerM2S(Instant at) {
    double dayOfYear = at.atZone(place.zone()).getDayOfYear();
    double tilt =
        StrictMath.toRadians(
            23.45 * StrictMath.sin(StrictMath.toRadians((284 + dayOfYear) * 360 / 365)));
    double solarHour = at.getEpochSecond() % 86_400 / 3600.0 + place.longitudeDeg() / 15;
    double turn = StrictMath.toRadians(15 * (solarHour - 12));
    double north = StrictMath.toRadians(place.latitudeDeg());
    double up =
        StrictMath.sin(north) * StrictMath.sin(tilt)
            + StrictMath.cos(north) * StrictMath.cos(tilt) * StrictMath.cos(turn);
    double clear = up <= 0 ? 0 : up * StrictMath.exp(-0.25 / (up + 0.05));
    double seen = 1 - 0.72 * StrictMath.pow(between(cloud, at), 2);
    return 620 * clear * seen;
  }
}
