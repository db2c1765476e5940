package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.estimate.EstimateState;
import dev.cupwarden.core.estimate.WeightFrame;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.substrate.CupWater;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Instant;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What a bench file foretells of cups as either world fills them, and what a drained weighing makes
 * of it: how far off is a depletion of 0.75 told? Figures stand in the science.
 */
class ForetoldWaterTest {
  private static final Instant AT = Instant.parse("2026-11-15T20:00:00Z");
  private static final Bench BENCH = UsualBench.of(24);
  private static final int BENCHES = 60;

  @ParameterizedTest
  @EnumSource(World.class)
  void aDrainedWeighingTellsTheDryLineMoreTruly(World world) {
    SplittableRandom random = new SplittableRandom(20_261_129L);
    double spread = 0;
    double foretold = 0;
    double moved = 0;
    int count = 0;
    for (int bench = 0; bench < BENCHES; bench++) {
      for (Cup entered : BENCH.cups().values()) {
        Cup cup = entered.withStage(RootStage.STRUCK);
        TrueCup truth = world.cup(BENCH, cup, Optional.empty(), random.nextLong());
        WeightFrame predicted =
            WeightFrame.of(
                CupWater.of(
                    BENCH.vessels().get(cup.vessel()),
                    BENCH.mixes().get(cup.mix()),
                    cup.cuttingG()));
        double drainedG = truth.grossG() - truth.waterMl() + truth.capacityMl();
        double atDryG = drainedG - 0.75 * truth.availableMl();
        double predictedMl = predicted.capacityG() - predicted.dryG();
        spread += Math.pow(truth.capacityMl() / predictedMl - 1, 2);
        WeightFrame frame = EstimateState.fresh().capacity().weighed(AT, drainedG).over(predicted);
        double asForetold = (frame.capacityG() - atDryG) / predicted.availableMl();
        foretold += Math.pow(asForetold - 0.75, 2);
        moved += Math.pow(frame.depletion(atDryG) - 0.75, 2);
        count++;
      }
    }
    spread = Math.sqrt(spread / count);
    foretold = Math.sqrt(foretold / count);
    moved = Math.sqrt(moved / count);
    System.out.printf(
        "%s world, %d cups: capacity off by %.3f, depletion of 0.75 by %.3f as foretold and %.3f"
            + " as moved (rms)%n",
        world.word(), count, spread, foretold, moved);
    assertTrue(moved < 0.7 * foretold, foretold + " became " + moved);
    assertTrue(moved < 0.03, "rms " + moved);
  }
}
