package dev.cupwarden.simulator.second;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.world.MixSheet;
import java.time.Duration;
import java.util.Optional;
import java.util.SplittableRandom;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Whatever is done to a cup of the second world, nothing in it comes from nowhere or is lost. */
class LayeredCupPropertiesTest {
  private static final Vessel TALL = new Vessel("tall", 92, 60, 112, 13);
  private static final Vessel TUB = new Vessel("tub", 60, 90, 70, 9);
  private static final MixSheet PEATY = new MixSheet(0.90, 0.66, 0.33, 0.18, 0.10);
  private static final MixSheet COARSE = new MixSheet(0.82, 0.35, 0.20, 0.10, 0.12);
  private static final Feed LEAFY =
      new Feed("leafy", 20, 10, 20, 1.53, Duration.ofDays(14), 5.8, 1.25);

  static Cup entered(Vessel vessel, RootStage stage) {
    return new Cup(
        "A",
        vessel.name(),
        "mix",
        "elder",
        Optional.empty(),
        stage,
        12,
        Optional.empty(),
        Cup.Wiring.NONE);
  }

  static LayeredCup cup(Vessel vessel, MixSheet mix, RootStage stage, long seed) {
    return new LayeredCup(vessel, mix, entered(vessel, stage), Optional.of(LEAFY), 0.3, seed);
  }

  @Property(tries = 60)
  void waterNitrogenAndSaltsAreAccountedFor(
      @ForAll long seed, @ForAll RootStage stage, @ForAll @IntRange(min = 1, max = 60) int days) {
    SplittableRandom random = new SplittableRandom(seed);
    LayeredCup cup =
        cup(
            random.nextBoolean() ? TALL : TUB,
            random.nextBoolean() ? PEATY : COARSE,
            stage,
            random.nextLong());
    for (int h = 0; h < days * 24; h++) {
      happen(cup, random);
      boolean lit = h % 24 < 15;
      Breeze air =
          new Breeze(
              5 + 25 * random.nextDouble(),
              10 + 90 * random.nextDouble(),
              3 + 25 * random.nextDouble(),
              lit ? 400 * random.nextDouble() : 0,
              0.05 + random.nextDouble());
      cup.advance(3600 * random.nextDouble(), air);
      sane(cup);
    }
    assertTrue(cup.balance().error() < 1e-9, () -> cup.balance().toString());
  }

  private static void happen(LayeredCup cup, SplittableRandom random) {
    double what = random.nextDouble();
    if (what < 0.1) {
      cup.give(120 * random.nextDouble(), random.nextBoolean() ? 0 : random.nextDouble());
    } else if (what < 0.13) {
      cup.standInWater(6 * random.nextDouble());
    } else if (what < 0.25) {
      cup.standInWater(0);
    } else if (what < 0.27) {
      cup.saucer(random.nextBoolean());
    } else if (what < 0.29) {
      cup.cover(random.nextBoolean());
    } else if (what < 0.292) {
      cup.infect(0.3);
    }
  }

  private static void sane(LayeredCup cup) {
    assertTrue(cup.airFraction() > -1e-9 && cup.airFraction() < 1, "air " + cup.airFraction());
    assertTrue(cup.waterMl() > 0 && cup.grossG() > cup.waterMl(), "water " + cup.waterMl());
    assertTrue(cup.ecAtCapacityMsPerCm() >= 0, "EC " + cup.ecAtCapacityMsPerCm());
    assertTrue(cup.leafCm2() >= 0 && cup.rot() >= 0 && cup.rot() <= 1, "leaf " + cup.leafCm2());
    for (int layer = 0; layer < Bed.LAYERS; layer++) {
      assertTrue(cup.theta(layer) >= 0 && cup.theta(layer) < 1, "layer " + layer);
    }
  }
}
