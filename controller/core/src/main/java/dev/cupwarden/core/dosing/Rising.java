package dev.cupwarden.core.dosing;

/**
 * A cup that grows heavier reading by reading with nothing ordered: a leaking valve. A person's can
 * raises it in one step instead.
 *
 * @param lastG last reading; NaN if there was none
 * @param fromG where the climb began
 * @param readings in a row that each rose
 */
public record Rising(double lastG, double fromG, int readings) {
  public static final Rising NONE = new Rising(Double.NaN, Double.NaN, 0);

  /** Fewer may be noise, or water from a can that soaks in. */
  private static final int LEAST_READINGS = 3;

  private static final double LEAST_G = 3.0;

  /** After a reading to which no dose of ours or a person's belongs. */
  public Rising read(double massG, double sdG) {
    double stepG = Math.max(0.3, 2.0 * sdG);
    if (massG > lastG + stepG) {
      return new Rising(massG, readings == 0 ? lastG : fromG, readings + 1);
    }
    return new Rising(massG, Double.NaN, 0);
  }

  /** After a reading to which a dose belongs. */
  public Rising dosed(double massG) {
    return new Rising(massG, Double.NaN, 0);
  }

  /** Grams climbed so far. */
  public double climbedG() {
    return readings == 0 ? 0.0 : lastG - fromG;
  }

  /** Whether it can be nothing else. */
  public boolean leaking(double sdG) {
    return readings >= LEAST_READINGS && climbedG() > thresholdG(sdG);
  }

  /** 3 g or six standard deviations. */
  public static double thresholdG(double sdG) {
    return Math.max(LEAST_G, 6.0 * sdG);
  }
}
