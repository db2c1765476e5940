package dev.cupwarden.core.tick;

import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.substrate.CupWater;
import dev.cupwarden.core.watering.CupLines;
import java.util.Optional;

/**
 * What follows from a cup's setup alone: the water it can hold, its lines, what it can weigh, what
 * is known of its plant.
 *
 * @param weights as predicted, before anything was learned
 * @param plant nothing where its word is in no table
 */
record CupFrame(CupWater water, CupLines lines, WeightFrame weights, Optional<Plant> plant) {
  /** A band narrower than this between wet and due is left to the grower's own lines. */
  private static final double LEAST_BAND = 0.1;

  /**
   * @throws IllegalArgumentException where vessel, mix and lines do not go together
   */
  static CupFrame of(Bench bench, Cup cup) {
    CupWater water = waterOf(bench, cup);
    return new CupFrame(
        water,
        CupLines.of(wetLine(bench, cup, water), stageLines(bench, cup, water)),
        WeightFrame.of(water),
        bench.rooting().plantOf(cup));
  }

  /**
   * Those of its stage and plant. A plant that roots moist does not move them so far that its mix
   * has no air where it is watered: there it has the lines of any plant.
   */
  static StageLines stageLines(Bench bench, Cup cup) {
    return stageLines(bench, cup, waterOf(bench, cup));
  }

  private static StageLines stageLines(Bench bench, Cup cup, CupWater water) {
    StageLines lines = bench.linesOf(cup);
    boolean airy = lines.due() - water.wetLineDepletion() >= LEAST_BAND;
    StageLines drained = airy ? lines : bench.rooting().linesOfAnyPlant(cup);
    return bench.vessels().get(cup.vessel()).holes() ? drained : drained.withoutHoles();
  }

  /** Without holes free water stands in the mix from capacity on, whatever air is left above it. */
  private static double wetLine(Bench bench, Cup cup, CupWater water) {
    double wet = water.wetLineDepletion();
    return bench.vessels().get(cup.vessel()).holes() ? wet : Math.max(wet, 0.0);
  }

  private static CupWater waterOf(Bench bench, Cup cup) {
    return CupWater.of(
        bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup.cuttingG());
  }
}
