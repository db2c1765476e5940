package dev.cupwarden.simulator.second;

import dev.cupwarden.simulator.world.MixSheet;

/**
 * Suction and conductance of a mix by how full its pores are (Campbell 1974, Soil Sci. 117:311):
 * suction {@code a s^-b} and conductance {@code Ks s^(2b+3)}, s being water over pore space; near
 * full a parabola that ends at no suction (Hutson and Cass 1987, J. Soil Sci. 38:105), which joins
 * it at {@code s = 2b / (1 + 2b)}. Both from memory; tests hold the join.
 *
 * @param porosity volume fraction of all pores
 * @param entryCm suction a of the power law at full pores, cm
 * @param slope b of the power law
 * @param fullCmPerH conductance Ks with all pores full
 */
record PoreCurve(double porosity, double entryCm, double slope, double fullCmPerH) {
  /** So near to full that the parabola's steepness no longer counts. */
  private static final double ALMOST_FULL = 0.9995;

  /** Through two points of a sheet, at 10 and 50 cm. */
  static PoreCurve of(MixSheet sheet, double fullCmPerH) {
    double slope = StrictMath.log(5) / StrictMath.log(sheet.at10Cm() / sheet.at50Cm());
    double entryCm = 10 * StrictMath.pow(sheet.at10Cm() / sheet.saturated(), slope);
    return new PoreCurve(sheet.saturated(), entryCm, slope, fullCmPerH);
  }

  private double join() {
    return 2 * slope / (1 + 2 * slope);
  }

  /** Suction, cm, at that part of the pores full, above 0 to 1. */
  double suctionCm(double full) {
    double join = join();
    if (full >= join) {
      double rest = Math.max(0, 1 - full) / (1 - join);
      return entryCm * StrictMath.pow(join, -slope) * StrictMath.sqrt(rest);
    }
    return entryCm * StrictMath.pow(full, -slope);
  }

  /** How much suction falls for a rise of {@code full} by 1, cm. */
  double steepnessCm(double full) {
    double join = join();
    if (full >= join) {
      double rest = 1 - Math.min(full, ALMOST_FULL);
      return entryCm * StrictMath.pow(join, -slope) / 2 / StrictMath.sqrt(rest * (1 - join));
    }
    return slope * entryCm * StrictMath.pow(full, -slope) / full;
  }

  /** Part of the pores that stays full at that suction, cm. */
  double fullAt(double suctionCm) {
    double join = join();
    double joinCm = entryCm * StrictMath.pow(join, -slope);
    if (suctionCm <= joinCm) {
      double part = Math.max(0, suctionCm) / joinCm;
      return 1 - (1 - join) * part * part;
    }
    return StrictMath.pow(suctionCm / entryCm, -1 / slope);
  }

  /** Conductance, cm/h. */
  double conductanceCmPerH(double full) {
    return fullCmPerH * StrictMath.pow(full, 2 * slope + 3);
  }
}
