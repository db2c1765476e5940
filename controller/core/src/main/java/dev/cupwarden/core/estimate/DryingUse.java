package dev.cupwarden.core.estimate;

import dev.cupwarden.core.climate.DryingPower;

/**
 * A cup's use of water over the last days, as sums that fade with a time constant of a day and a
 * half: long enough to hold a day and its night, short enough to follow growth.
 *
 * @param lossG lost by drying, g
 * @param hours in which it was lost
 * @param driveKpaH drying power of the air over the hours for which it was known, kPa·h
 * @param lossWithDriveG lost in those hours, g
 */
public record DryingUse(double lossG, double hours, double driveKpaH, double lossWithDriveG) {
  static final DryingUse NONE = new DryingUse(0, 0, 0, 0);

  private static final double FADE_H = 36;
  private static final double LEAST_HOURS = 3;

  /** After a quiet interval. */
  DryingUse add(double moreLossG, double moreHours, double driveKpa) {
    double fade = Math.exp(-moreHours / FADE_H);
    // Within a long interval its own beginning has faded too.
    double weight = moreHours > 0 ? FADE_H * (1 - fade) / moreHours : 1;
    boolean driven = driveKpa > 0;
    return new DryingUse(
        lossG * fade + moreLossG * weight,
        hours * fade + moreHours * weight,
        driveKpaH * fade + (driven ? driveKpa * moreHours * weight : 0),
        lossWithDriveG * fade + (driven ? moreLossG * weight : 0));
  }

  /** Whether enough hours were seen to speak of a mean. */
  public boolean known() {
    return hours >= LEAST_HOURS;
  }

  /** Mean loss, g/h, 0 or more; meaningful if {@link #known}. */
  public double meanGPerH() {
    return hours > 0 ? Math.max(0, lossG / hours) : 0;
  }

  /** Whether use per unit of drying power is known. */
  public boolean knownPerKpa() {
    return known() && driveKpaH > 0.2;
  }

  /** Mean loss in air of that VPD, g/h, 0 or more; meaningful if {@link #knownPerKpa}. */
  public double gPerHAt(double vpdKpa) {
    return Math.max(0, lossWithDriveG / driveKpaH) * DryingPower.kpa(vpdKpa);
  }
}
