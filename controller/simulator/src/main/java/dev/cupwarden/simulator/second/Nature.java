package dev.cupwarden.simulator.second;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.world.MixSheet;
import java.util.SplittableRandom;

/**
 * How one cup and its cutting really are; {@link #draw} is the one table of this world's spreads.
 * Those without a source are the project's choice: vessels and mixes are off by up to 13 % either
 * way, as hand-filled cups of bought mix are.
 *
 * @param bed the mix in its vessel
 * @param wood the cutting in it
 */
record Nature(BedNature bed, WoodNature wood) {
  /**
   * A mix in its vessel.
   *
   * @param topCm radius of the mix at its top
   * @param baseCm radius at its base
   * @param depthCm depth as filled
   * @param curve how it holds and lets water
   * @param unavailable volume fraction below which roots draw nothing
   * @param dryG vessel and dry mix
   * @param open part of the base that the holes leave open to water
   * @param shedding how much this mix sheds water once it is dry, 0 to 1
   * @param gap part of a pass that runs down the wall when the mix has shrunk
   * @param soaksMlPerH how fast a puddle sinks into a wet top
   */
  record BedNature(
      double topCm,
      double baseCm,
      double depthCm,
      PoreCurve curve,
      double unavailable,
      double dryG,
      double open,
      double shedding,
      double gap,
      double soaksMlPerH) {}

  /**
   * A cutting.
   *
   * @param leafSPerM least resistance of a lit leaf
   * @param grownCm2 leaf area the plant tends to
   * @param unfolds growth of leaf area for each degree-day over 5 °C
   * @param budsDegD degree-days over 5 °C before buds break
   * @param callusDegD degree-days over 7 °C at the cut before the first root
   * @param tanDegD degree-days over 7 °C before roots tan
   * @param rootsPerDegD relative growth of root length for each degree-day
   * @param spores water mould that came with mix or wood, as a part of what fills a cutting
   * @param guard how well the wood walls off a lesion, 1 as usual
   * @param stemMl water that the wood can lose between turgid and dead
   */
  record WoodNature(
      double leafSPerM,
      double grownCm2,
      double unfolds,
      double budsDegD,
      double callusDegD,
      double tanDegD,
      double rootsPerDegD,
      double spores,
      double guard,
      double stemMl) {}

  private static final double OFF = 0.13;

  /** Median of conductance when full times the square of the suction at entry, cm/h cm². */
  static final double USUAL_CONDUCTANCE = 100;

  /** Of a cup as entered. */
  static Nature draw(Vessel vessel, MixSheet sheet, Cup cup, SplittableRandom random) {
    double wide = within(random, 1, 0.02);
    double topCm = vessel.topMm() / 20 * wide;
    double baseCm = vessel.baseMm() / 20 * wide;
    double depthCm = vessel.depthMm() / 10 * within(random, 1, 0.06);
    double porosity = Math.min(0.97, sheet.saturated() * within(random, 1, 0.03));
    // Conductance goes as the square of the widest pores: some 10 to 40 cm/h of peat mixes when
    // full (from memory); 360 was read of coir with perlite (Ilahi and Ahmad 2017).
    PoreCurve entered = PoreCurve.of(sheet, 1);
    double fullCmPerH =
        spread(random, USUAL_CONDUCTANCE, 0.4) / (entered.entryCm() * entered.entryCm());
    PoreCurve curve =
        new PoreCurve(
            porosity,
            entered.entryCm() * within(random, 1, OFF),
            entered.slope() * within(random, 1, OFF / 2),
            fullCmPerH);
    double volumeMl = new Bed(topCm, baseCm, depthCm, curve).volumeMl();
    double dryG =
        vessel.emptyG() * within(random, 1, OFF)
            + sheet.dryDensityGPerMl() * volumeMl * within(random, 1, OFF);
    boolean carries = random.nextDouble() < 0.35;
    BedNature bed =
        new BedNature(
            topCm,
            baseCm,
            depthCm,
            curve,
            Math.min(0.6 * porosity, sheet.unavailable() * within(random, 1, OFF)),
            dryG,
            between(random, 0.04, 0.12),
            StrictMath.pow(random.nextDouble(), 1.5),
            between(random, 0.15, 0.6),
            spread(random, 420, 0.35));
    return new Nature(bed, wood(cup, carries, random));
  }

  private static WoodNature wood(Cup cup, boolean carries, SplittableRandom random) {
    return new WoodNature(
        spread(random, 190, 0.2),
        spread(random, 380, 0.35),
        between(random, 0.0045, 0.0065),
        between(random, 110, 380),
        spread(random, 300, 0.3),
        spread(random, 150, 0.25),
        between(random, 0.010, 0.015),
        carries ? spread(random, 1e-3, 1.0) : 0,
        spread(random, 1, 0.35),
        0.35 * cup.cuttingG());
  }

  private static double within(SplittableRandom random, double mean, double part) {
    return mean * (1 + part * (2 * random.nextDouble() - 1));
  }

  private static double between(SplittableRandom random, double least, double most) {
    return least + (most - least) * random.nextDouble();
  }

  private static double spread(SplittableRandom random, double median, double sdOfLog) {
    return median * StrictMath.exp(sdOfLog * random.nextGaussian());
  }
}
