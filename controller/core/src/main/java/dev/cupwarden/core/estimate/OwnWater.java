package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;
import org.hipparchus.special.Erf;

/**
 * The weight of a cup that nobody weighs, carried on by what it must have lost and was given.
 *
 * <p>Its doubt grows by three things: a share of the bench's loss that is not quite the true one
 * errs the same way every day; that share wanders, so the error grows; and each day scatters about
 * it. With L the loss of a step of t days, v the variance of the share as a part of it and c the
 * covariance of weight and share, var' = var + 2 L c + L² v + (L s)² / t, c' = c + L v, v' = v + q
 * t: the prediction of a two-state Kalman filter (textbook), s being the scatter of a day and q
 * what the share wanders by.
 *
 * @param since when it was last weighed
 * @param at the moment it holds for
 * @param massG gross grams
 * @param varG2 variance of them, g²
 * @param covG covariance of the loss so far and the share, g
 * @param varShare variance of the share, as a part of it
 * @param rateGPerH what it loses now
 * @param lately mean of the bench's index over the last day, fading
 * @param grownLog what the logarithms of the weighed cups' shares rose by meanwhile, their mean
 */
public record OwnWater(
    Instant since,
    Instant at,
    double massG,
    double varG2,
    double covG,
    double varShare,
    double rateGPerH,
    double lately,
    double grownLog) {

  /** Hose and valve give the ordered millilitres within this part of them: our choice. */
  private static final double PASS_SD_PART = 0.05;

  private static final double DAY_H = 24;

  /**
   * How well a rate is known.
   *
   * @param varLevel variance of the rate as a part of it, from the start
   * @param dayScatter standard deviation of one day's rate about that, as a part of it
   * @param wanderPerDay by how much the variance of the level grows in a day
   */
  public record Trust(double varLevel, double dayScatter, double wanderPerDay) {}

  /**
   * As last weighed.
   *
   * @param lately the bench's index as it mostly is
   */
  public static OwnWater from(Instant since, double massG, double sdG, Trust trust, double lately) {
    return new OwnWater(since, since, massG, sdG * sdG, 0, trust.varLevel(), 0, lately, 0);
  }

  /** Later, having lost at that rate; never below what its dry parts weigh. */
  public OwnWater dried(Instant now, double rate, double leastG, Trust trust) {
    double hours = Elapsed.hours(at, now);
    double lossG = Math.max(0, Math.min(rate * hours, massG - leastG));
    double days = hours / DAY_H;
    double scatterG = lossG * trust.dayScatter();
    double scattered = days > 0 ? scatterG * scatterG / days : 0;
    return new OwnWater(
        since,
        now,
        massG - lossG,
        varG2 + 2 * lossG * covG + lossG * lossG * varShare + scattered,
        covG + lossG * varShare,
        varShare + trust.wanderPerDay() * days,
        rate,
        lately,
        grownLog);
  }

  /** With the bench's index of the moment taken into its mean, before the time moves on. */
  public OwnWater under(double index, Instant now) {
    if (!(index > 0)) {
      return this;
    }
    double step = 1 - Math.exp(-Elapsed.hours(at, now) / DAY_H);
    double mean = lately + step * (index - lately);
    return new OwnWater(since, at, massG, varG2, covG, varShare, rateGPerH, mean, grownLog);
  }

  /** With what the weighed cups' shares rose by: a cup in leaf grows as they do. */
  public OwnWater grown(double byLog) {
    double all = grownLog + byLog;
    return new OwnWater(since, at, massG, varG2, covG, varShare, rateGPerH, lately, all);
  }

  /**
   * With water that nobody saw arrive: that part of it is expected, and what would be more than the
   * mix can hold has run through. The weight is then that of a normal variable cut off at capacity:
   * mean, variance and covariance of such a one (textbook; the covariance by Stein's lemma). Only
   * the wet side of the doubt is cut off, so half of what that takes from it is taken.
   *
   * @param capacityG gross grams when drained
   */
  public OwnWater given(double ml, double part, double capacityG) {
    double passSdG = PASS_SD_PART * ml;
    double mean = massG + part * ml;
    double sd = Math.sqrt(varG2 + passSdG * passSdG);
    double z = (capacityG - mean) / sd;
    double below = 0.5 * Erf.erfc(-z / Math.sqrt(2));
    double density = Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
    // Both against capacity, which keeps the digits.
    double first = (mean - capacityG) * below - sd * density;
    double second =
        ((mean - capacityG) * (mean - capacityG) + sd * sd) * below
            - sd * (mean - capacityG) * density;
    return new OwnWater(
        since,
        at,
        capacityG + first,
        (sd * sd + Math.max(0, second - first * first)) / 2,
        covG * (1 + below) / 2,
        varShare,
        rateGPerH,
        lately,
        grownLog);
  }

  /** Without water that was told and taken back. */
  public OwnWater without(double ml) {
    return new OwnWater(since, at, massG - ml, varG2, covG, varShare, rateGPerH, lately, grownLog);
  }

  /** Standard deviation of the weight, g. */
  public double sdG() {
    return Math.sqrt(varG2);
  }
}
