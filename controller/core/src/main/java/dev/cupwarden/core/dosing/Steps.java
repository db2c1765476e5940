package dev.cupwarden.core.dosing;

/**
 * Rises from one raw reading of a scale to the next, for what cannot wait until an estimate has
 * made up its mind: a valve that stands open gets a part of every other cup's pass, and one that
 * leaks fast raises its cup at every reading; to an estimate both look like a restless scale.
 *
 * @param strays rises right after passes to others
 * @param strayG those rises together
 * @param netG what of them is left after all falls since the first
 * @param rises readings in a row that each rose with the pump at rest
 * @param leastG the smallest of those rises
 * @param mostG the largest
 */
public record Steps(
    int strays, double strayG, double netG, int rises, double leastG, double mostG) {
  public static final Steps NONE = new Steps(0, 0.0, 0.0, 0, 0.0, 0.0);

  /**
   * From here on one rise, or one look, is proof that water went astray. A few grams are chance: a
   * scale that was leant on, or a mix that shed a small pass, held a bench until it had dried up.
   * Our choice.
   */
  public static final double PROOF_G = 10.0;

  /** One may be a person's can, two a scale that begins to be restless: our choice. */
  private static final int STRAYS = 3;

  /** Water stays; of the rises of a spike or a noisy scale less than this part is left. */
  private static final double STAYS = 0.8;

  /** So many even rises in a row are no noise: one in some ten thousand would be. Our choice. */
  private static final int RISES = 5;

  /** Evaporation, creep and a good scale's noise are less than this in a tick: our choice. */
  private static final double LEAST_RISE_G = 0.8;

  /** Water that runs by itself runs evenly; noise does not. */
  private static final double EVEN = 3.0;

  /** A valve that stands open a little brings the same at each reading: our choice. */
  private static final double VERY_EVEN = 1.5;

  /**
   * After a reading while passes to others may have come here.
   *
   * @param riseG since the reading before
   * @param leastG a rise that a person or a pass may have made, g
   * @param mostG all that was pumped, g
   */
  public Steps whilePumped(double riseG, double leastG, double mostG) {
    if (riseG < -leastG / 2.0) {
      // Water that came does not leave at once: these were rises of a restless scale.
      return NONE;
    }
    if (riseG > leastG && riseG <= mostG) {
      return new Steps(strays + 1, strayG + riseG, netG + riseG, 0, 0.0, 0.0);
    }
    double leftG = netG + riseG;
    return strays == 0 || leftG < strayG / 2 ? NONE : new Steps(strays, strayG, leftG, 0, 0.0, 0.0);
  }

  /**
   * After a pass of its own brought more than was ordered, while others were watered, too.
   *
   * @param overG how much more
   */
  public Steps overfilled(double overG) {
    return new Steps(strays + 1, strayG + overG, netG + overG, 0, 0.0, 0.0);
  }

  /** After a reading with nothing pumped lately. */
  public Steps atRest(double riseG) {
    if (riseG < LEAST_RISE_G) {
      return this.equals(NONE) ? this : NONE;
    }
    double least = rises == 0 ? riseG : Math.min(leastG, riseG);
    double most = Math.max(mostG, riseG);
    return most > EVEN * least
        ? new Steps(0, 0.0, 0.0, 1, riseG, riseG)
        : new Steps(0, 0.0, 0.0, rises + 1, least, most);
  }

  /** After a reading that says nothing of water: lifted, out of range, or of its own pass. */
  public Steps withoutRises() {
    return rises == 0 ? this : new Steps(strays, strayG, netG, 0, 0.0, 0.0);
  }

  /** Whether others' passes come here. */
  public boolean astray() {
    return strays >= STRAYS && netG >= STAYS * strayG;
  }

  /** Whether water runs in by itself. */
  public boolean running() {
    return rises >= RISES;
  }

  /** Whether it does so too evenly for a scale that seems restless. */
  public boolean runningEvenly() {
    return running() && mostG <= VERY_EVEN * leastG;
  }
}
