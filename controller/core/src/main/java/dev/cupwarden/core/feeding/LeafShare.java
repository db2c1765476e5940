package dev.cupwarden.core.feeding;

import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import java.util.Map;

/**
 * Part of a cup's loss that goes through its leaves and takes salts along; the rest leaves the top
 * of the mix and leaves its salts behind.
 *
 * <p>Once a cup's own daily use is known, what a bare mix of its width would lose in that air is
 * taken off: {@code 1 - E A / use}, with E = 1.0 mm a day for each kPa of drying power and A the
 * area of its top. Open water in still air loses 2.6 mm a day for each kPa (Penman 1948, from
 * memory); the top of a mix dries within a day of a watering and then loses a part of that. The
 * simulator's bare cups lose 1.0 to 1.2. Our choice.
 */
public final class LeafShare {
  private static final double BARE_MM_PER_D_PER_KPA = 1.0;
  private static final double MOST = 0.9;

  /** Before its use is known; on the low side, so that the salt balance errs high. Our choice. */
  private static final Map<RootStage, Double> USUAL =
      Map.of(
          RootStage.STRUCK, 0.0,
          RootStage.WHITE, 0.2,
          RootStage.TOUGHENED, 0.35,
          RootStage.CIRCLING, 0.55);

  private LeafShare() {}

  /** Before anything is known of a cup's use. */
  public static double usual(RootStage stage) {
    return USUAL.get(stage);
  }

  /**
   * Of a rooted cup whose use is known.
   *
   * @param lostMlPerD what it loses in a day, above 0
   * @param vessel what it stands in
   * @param dryingKpa drying power of the air of that day
   */
  public static double of(double lostMlPerD, Vessel vessel, double dryingKpa) {
    double topCm2 = Math.PI / 4.0 * vessel.topMm() * vessel.topMm() / 100.0;
    double bareMlPerD = BARE_MM_PER_D_PER_KPA * dryingKpa * topCm2 / 10.0;
    return Math.max(0.0, Math.min(MOST, 1.0 - bareMlPerD / lostMlPerD));
  }
}
