package dev.cupwarden.core.estimate;

/**
 * What a cutting itself draws: a mix dries by day and by night, leaves draw by day. The loss per
 * unit of drying power in the light less that in the dark is therefore the plant's, free of how wet
 * the top of the mix happens to be.
 *
 * <p>Once a day it is held against what it used to be, the change of the middle cup taken off,
 * since weather and light move all. A cup that draws suddenly less, with water enough and its
 * neighbours drawing on, is worth a look at its roots if it does so for two days running; before it
 * has leaves it shows nothing.
 *
 * @param today what has been seen since the last day was closed
 * @param days closed so far
 * @param usual draw of the last days, g/h and kPa
 * @param spread variance of its daily change as a part of itself
 * @param lately change on the last day, as a part of what was usual, neighbours' taken off
 * @param fallenDays days since it fell; 0: it has not
 */
public record PlantDraw(
    Today today, int days, double usual, double spread, double lately, int fallenDays) {
  /** Nothing seen. */
  public static final PlantDraw NONE = new PlantDraw(Today.NOTHING, 0, 0.0, 0.01, 0.0, 0);

  /** Draw that falls by this part of itself within a day is a bad sign (project choice). */
  public static final double FALLS_BY = 0.12;

  private static final double CLEARS_ABOVE = -0.07;
  private static final double BEYOND_SDS = 2.5;
  private static final double LEAST_SD = 0.04;
  private static final double LEAFY = 0.7;
  private static final double CLIP = 0.5;
  private static final double USUAL_STEP = 0.25;
  private static final double SPREAD_STEP = 0.1;
  private static final int LEAST_DAYS = 5;

  /** Below this a plant's draw is lost in what the mix does, g/h and kPa. */
  private static final double LEAST_DRAW = 0.08;

  private static final double LEAST_HOURS = 4.0;
  private static final double LEAST_KPA_H = 0.5;

  /** A fall that lasts longer is the new usual. */
  private static final int LONGEST_FALL_DAYS = 7;

  /** Leaves close in drier air than this, kPa: more draws no more. */
  private static final double MOST_KPA = 2.0;

  /**
   * Since the last day was closed.
   *
   * @param lastG weight at the last look; NaN after anything but drying
   */
  public record Today(
      double lastG,
      double litG,
      double litKpaH,
      double litH,
      double darkG,
      double darkKpaH,
      double darkH) {
    static final Today NOTHING = new Today(Double.NaN, 0, 0, 0, 0, 0, 0);

    private Today at(double massG) {
      return new Today(massG, litG, litKpaH, litH, darkG, darkKpaH, darkH);
    }

    /** Whether both light and dark were seen for long enough. */
    boolean known() {
      return litH >= LEAST_HOURS
          && darkH >= LEAST_HOURS
          && litKpaH >= LEAST_KPA_H
          && darkKpaH >= LEAST_KPA_H;
    }

    /** g/h and kPa of the plant alone; may be below 0 by noise. */
    double draw() {
      return litG / litKpaH - darkG / darkKpaH;
    }
  }

  /** After something other than drying: what changed meanwhile is not counted. */
  public PlantDraw interrupted() {
    return Double.isNaN(today.lastG()) ? this : with(today.at(Double.NaN));
  }

  /**
   * After some time of drying.
   *
   * @param massG gross grams now
   * @param vpdKpa of the air; NaN: unknown, taken as ever the same
   */
  public PlantDraw dried(double massG, double hours, double vpdKpa, boolean light) {
    if (Double.isNaN(today.lastG())) {
      return with(today.at(massG));
    }
    double lostG = today.lastG() - massG;
    double kpaH = hours * (Double.isNaN(vpdKpa) ? 1.0 : Math.min(MOST_KPA, Math.max(0.05, vpdKpa)));
    return with(
        light
            ? new Today(
                massG,
                today.litG() + lostG,
                today.litKpaH() + kpaH,
                today.litH() + hours,
                today.darkG(),
                today.darkKpaH(),
                today.darkH())
            : new Today(
                massG,
                today.litG(),
                today.litKpaH(),
                today.litH(),
                today.darkG() + lostG,
                today.darkKpaH() + kpaH,
                today.darkH() + hours));
  }

  private PlantDraw with(Today now) {
    return new PlantDraw(now, days, usual, spread, lately, fallenDays);
  }

  /** Change of today's draw as a part of the usual; NaN where either is not known. */
  public double change() {
    boolean comparable = today.known() && days >= LEAST_DAYS && usual >= LEAST_DRAW;
    return comparable ? Math.max(0.0, today.draw()) / usual - 1.0 : Double.NaN;
  }

  /** Whether today's draw, held against the neighbours', has fallen. */
  public boolean falls(double neighboursChange) {
    double own = change() - neighboursChange;
    // A plant that draws less than its mix loses by itself is too small to be told from it.
    boolean leafy = usual >= LEAFY * today.darkG() / today.darkKpaH();
    return leafy && own < -FALLS_BY && own < -BEYOND_SDS * Math.max(LEAST_SD, Math.sqrt(spread));
  }

  /**
   * The day is over.
   *
   * @param neighboursChange the middle cup's {@link #change}; NaN: too few are known
   * @param told whether a fall is to be told: enough water, and this cup's alone
   */
  public PlantDraw close(double neighboursChange, boolean told) {
    Today next = Today.NOTHING.at(today.lastG());
    if (!today.known()) {
      return new PlantDraw(next, days, usual, spread, lately, fallenDays);
    }
    double own = change() - neighboursChange;
    if (Double.isNaN(own)) {
      double step = Math.max(USUAL_STEP, 1.0 / (days + 1));
      double mean = usual + step * (today.draw() - usual);
      return new PlantDraw(next, days + 1, mean, spread, lately, 0);
    }
    boolean falls = falls(neighboursChange);
    if (fallenDays == 0 && falls && lately >= -FALLS_BY) {
      // One day may be a window left open; the next is held against the days before both.
      return new PlantDraw(next, days + 1, usual, spread, own, 0);
    }
    boolean fallen =
        fallenDays == 0 ? told && falls : own < CLEARS_ABOVE && fallenDays < LONGEST_FALL_DAYS;
    if (fallen) {
      // What was usual is kept for comparison, moved with the neighbours'.
      double kept = usual * (1.0 + USUAL_STEP * neighboursChange);
      return new PlantDraw(next, days + 1, kept, spread, own, fallenDays + 1);
    }
    double clipped = Math.max(-CLIP, Math.min(CLIP, own));
    return new PlantDraw(
        next,
        days + 1,
        usual + USUAL_STEP * (today.draw() - usual),
        spread + SPREAD_STEP * (clipped * clipped - spread),
        own,
        0);
  }

  /** Whether it draws less than its past and its neighbours lead to expect. */
  public boolean fallen() {
    return fallenDays > 0;
  }
}
