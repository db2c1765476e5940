package dev.cupwarden.core.estimate;

import dev.cupwarden.core.units.Elapsed;
import java.time.Instant;

/**
 * The scale's own noise, by what neighbouring readings show: how far one lies off the straight line
 * between the readings before and after it.
 *
 * <p>A cup that dries, however fast, moves along that line, and a change of its rate bends it by
 * hundredths of a gram: so neither light nor air nor a forecast that lags is taken for noise. With
 * weights w and 1 - w of the outer readings the variance of what the middle one is off by is 1 + w²
 * + (1 - w)² times that of a reading. A step of the load shows in two such bends and a single wrong
 * reading in three; each pulls no harder than one of {@value #CLIP_SDS} standard deviations
 * (Huber's proposal 2, as a recursion; P. J. Huber 1964, Ann. Math. Stat. 35:73, from memory).
 * Where more bends in a row lie beyond that than one of those makes, the scale itself has become
 * restless: they pull harder, so that it is found within the hour.
 *
 * @param varG2 its variance, g²
 * @param lastG last reading, g
 * @param lastAt when; null: none to go by
 * @param beforeG the reading before that, g
 * @param beforeAt when; null: none to go by
 * @param greatH hours of readings for which it has been great, less those since that were quiet
 * @param wild bends in a row beyond what one bend may pull
 */
record Noise(
    double varG2,
    double lastG,
    Instant lastAt,
    double beforeG,
    Instant beforeAt,
    double greatH,
    int wild) {
  /** A scale noisier than this cannot tell a least pass of 5 mL, g. */
  static final double TOO_GREAT_SD_G = 1.5;

  /**
   * Several times what a good cell shows under a cup (a tenth of a gram, twice that beside a fan):
   * our choice, g.
   */
  static final double GREAT_SD_G = 0.40;

  /** However long it was great, it is over after so many quiet hours (our choice). */
  private static final double MOST_GREAT_H = 3;

  /** No cell under a cup is quieter: our choice, g. */
  static final double LEAST_SD_G = 0.03;

  private static final double LEAST_VAR_G2 = LEAST_SD_G * LEAST_SD_G;
  private static final double GREATEST_VAR_G2 = 25;
  private static final double LEARNING = 0.1;
  private static final double CLIP_SDS = 2;

  /** What neither a step nor a wrong reading explains pulls so hard (our choice). */
  private static final double WILD_CLIP_SDS = 4;

  /** A step shows in two bends, a wrong reading in three: more in a row are neither, nor both. */
  private static final int MOST_BENDS_OF_BOTH = 5;

  /** Mean of the square of a standard normal variable, clipped at two: 0.7385 + 4 · 0.0455. */
  private static final double MEAN_OF_CLIPPED = 0.9205;

  /** Over a longer time a change of light would bend the line, min (our choice). */
  private static final double LONGEST_MIN = 40;

  /** Until learned: typical of a small cell behind a 24-bit converter under a cup. */
  static final Noise GUESS = new Noise(0.1 * 0.1, 0, null, 0, null, 0, 0);

  /**
   * After one more reading of a load that has only dried since the one before.
   *
   * @param roundingVar what the rounding of the reading adds, g²
   */
  Noise read(Instant at, double massG, double roundingVar) {
    if (lastAt == null || beforeAt == null || Elapsed.minutes(beforeAt, at) > LONGEST_MIN) {
      return new Noise(varG2, massG, at, lastG, lastAt, greatH, 0);
    }
    double stepH = Elapsed.hours(lastAt, at);
    double spanH = Elapsed.hours(beforeAt, at);
    if (!(stepH > 0 && stepH < spanH)) {
      return new Noise(varG2, massG, at, lastG, lastAt, greatH, 0);
    }
    double ofBefore = stepH / spanH;
    double offG = lastG - ofBefore * beforeG - (1 - ofBefore) * massG;
    double times = 1 + ofBefore * ofBefore + (1 - ofBefore) * (1 - ofBefore);
    double expected = varG2 + roundingVar;
    double wholeSquare = offG * offG / times / expected;
    int inRow = wholeSquare > CLIP_SDS * CLIP_SDS ? wild + 1 : 0;
    double clip = inRow > MOST_BENDS_OF_BOTH ? WILD_CLIP_SDS : CLIP_SDS;
    double square = Math.min(wholeSquare, clip * clip);
    double next = varG2 * (1 + LEARNING * (square - MEAN_OF_CLIPPED));
    double var = Math.max(LEAST_VAR_G2, Math.min(GREATEST_VAR_G2, next));
    double hours = greatH + (var > GREAT_SD_G * GREAT_SD_G ? stepH : -stepH);
    double lasting = Math.max(0, Math.min(MOST_GREAT_H, hours));
    return new Noise(var, massG, at, lastG, lastAt, lasting, inRow);
  }

  /** After something other than drying: what follows is not held against what was before. */
  Noise interrupted() {
    return lastAt == null ? this : new Noise(varG2, 0, null, 0, null, greatH, 0);
  }

  double sdG() {
    return Math.sqrt(varG2);
  }

  boolean tooGreat() {
    return varG2 > TOO_GREAT_SD_G * TOO_GREAT_SD_G;
  }
}
