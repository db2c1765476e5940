package dev.cupwarden.core.setup;

/**
 * Where a cup is watered, as depletions: 0 at container capacity, 1 where the cutting can take no
 * more.
 *
 * @param due watering begins above it
 * @param refill watering ends at it
 * @param dry wilting is near above it
 */
public record StageLines(double due, double refill, double dry) {
  private static final double LEAST_REFILL_WITHOUT_HOLES = 0.15;

  /** The design's lines: our choice, on the dry side for unrooted, on the moist side for rooted. */
  public static StageLines usual(RootStage stage) {
    return switch (stage) {
      case STRUCK -> new StageLines(0.60, 0.30, 0.85);
      case WHITE -> new StageLines(0.50, 0.15, 0.80);
      case TOUGHENED -> new StageLines(0.50, 0.05, 0.75);
      case CIRCLING -> new StageLines(0.40, 0.00, 0.70);
    };
  }

  /**
   * The same moved by a depletion, for a plant that roots drier or moister than most. Watering
   * still ends at capacity, unless it ended beyond, and the dry line stays one.
   */
  StageLines movedBy(double depletion) {
    double mostWater = Math.min(refill, 0.0);
    return new StageLines(
        rounded(due + depletion),
        rounded(Math.max(mostWater, refill + depletion)),
        rounded(Math.min(1.0, dry + depletion)));
  }

  /**
   * The same in a vessel without holes: what is past capacity stands in it, so watering ends so far
   * before that neither a pump that gives a tenth more nor a capacity that was never weighed floods
   * it. Our choice.
   */
  public StageLines withoutHoles() {
    return new StageLines(
        due, Math.max(refill, Math.min(LEAST_REFILL_WITHOUT_HOLES, due / 2.0)), dry);
  }

  /** 0.6 - 0.05 is 0.55 to a person and to a file. */
  private static double rounded(double depletion) {
    return Math.rint(depletion * 1e6) / 1e6;
  }
}
