package dev.cupwarden.core.tick;

import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.substrate.CupWater;
import dev.cupwarden.core.watering.CupLines;

/**
 * What follows from a cup's setup alone: the water it can hold, its lines, what it can weigh.
 *
 * @param weights as predicted, before anything was learned
 */
record CupFrame(CupWater water, CupLines lines, WeightFrame weights) {

  /**
   * @throws IllegalArgumentException where vessel, mix and lines do not go together
   */
  static CupFrame of(Bench bench, Cup cup) {
    CupWater water =
        CupWater.of(
            bench.vessels().get(cup.vessel()), bench.mixes().get(cup.mix()), cup.cuttingG());
    return new CupFrame(
        water, CupLines.of(water.wetLineDepletion(), bench.linesOf(cup)), WeightFrame.of(water));
  }
}
