package dev.cupwarden.core.season;

/**
 * Advice of the season, a row each, the most pressing first: a cup shows one at a time. Bounds
 * without a source are our choice.
 */
public enum SeasonCard {
  /** Leaves draw on wood that has no roots: its use rises, and a person found none. */
  SHADE_LEAVES,
  /** A rooted cup has stood dry: its leaves may fall. */
  LEAF_DROP,
  /** Its top was wet for days: algae grow there and fungus gnats lay their eggs. */
  TOP_WET,
  /** Roots that are warmed though they no longer need it. */
  STOP_HEAT,
  /** It uses its water within a day. */
  POT_ON,
  /** Roots have circled for weeks. */
  POT_BOUND,
  /** It has begun to go out by day. */
  HARDEN_OFF,
  /** Its leaves get less light than rooted cuttings use. */
  LITTLE_LIGHT;

  /** At less than this depletion the top of a mix is wet. */
  public static final double TOP_WET_BELOW = 0.1;

  /** Gnats hatch within some days of a wet top (common practice); our choice. */
  public static final double TOP_WET_DAYS = 5.0;

  /** By so much the roots of a heated cup are warmer than the air. */
  public static final double HEATED_K = 2.0;

  /** Below this they are not heated. */
  public static final double UNHEATED_K = 1.0;

  /** A night without heat, or a warm one, is no habit. */
  public static final double HEATED_DAYS = 3.0;

  /** Leaves that fall for drought fall within a week. */
  public static final double LEAF_DROP_DAYS = 7.0;

  /** So long past its dry line a leaf does not forget it. */
  public static final double DRIED_OUT_H = 6.0;

  /** Roots that circle for three weeks set in circles. */
  public static final double CIRCLING_DAYS = 21.0;

  /** Hardening off takes a week to ten days: common practice. */
  public static final int DAYS_OUT = 10;

  /**
   * Half of the 8 mol a square metre and day at which rooted cuttings of bedding plants grew best
   * (Currey, Hutchinson and Lopez 2012, HortScience 47: 25-30, as reported by a trade page; of
   * woody cuttings nothing is known to us).
   */
  public static final double LITTLE_MOL = 4.0;

  /** So much more, and it is light enough. */
  public static final double ENOUGH_MOL = 5.0;
}
