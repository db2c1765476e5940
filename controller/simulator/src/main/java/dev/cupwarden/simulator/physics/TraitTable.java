package dev.cupwarden.simulator.physics;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Vessel;
import java.util.SplittableRandom;

/**
 * How far a real cup lies from what the bench file says of it, and how cuttings differ: the one
 * table of the simulator's distributions. Spreads without a source are the project's choice; each
 * has its reason here.
 *
 * <table>
 * <caption>Distributions: normal (mean, sd), lognormal (median, sd of the logarithm), uniform</caption>
 * <tr><th>trait</th><th>drawn as</th><th>reason</th></tr>
 * <tr><td>depth of mix</td><td>bench x N(1, 0.02)</td><td>filled by hand, 2 mm in 100</td></tr>
 * <tr><td>saturated</td><td>bench + N(0, 0.012)</td><td>packing; at most 0.97</td></tr>
 * <tr><td>residual, unavailable</td><td>bench x L(1, 0.10)</td><td>published values differ by far
 *     more between methods</td></tr>
 * <tr><td>alpha</td><td>bench x L(1, 0.12)</td><td>breaking of peat when filling closes
 *     pores (Heiskanen, HortTechnology 4:286)</td></tr>
 * <tr><td>n - 1</td><td>bench x L(1, 0.06)</td><td>as alpha</td></tr>
 * <tr><td>least air</td><td>bench + N(0, 0.01)</td><td>roots differ; 0.10 is a rule of thumb</td></tr>
 * <tr><td>dry mass</td><td>bench x N(1, 0.04)</td><td>packing</td></tr>
 * <tr><td>drainage time</td><td>L(7 min x 0.22 / alpha, 0.4)</td><td>most has drained in 10 to 15 min (Purdue's pot
 *     method), fine pores slower</td></tr>
 * <tr><td>infiltration</td><td>L(6 mL/min, 0.4)</td><td>30 mL sink in within some five minutes:
 *     common practice</td></tr>
 * <tr><td>greatest bypass</td><td>U(0.3, 0.95)</td><td>dry peat sheds water (Durand et al. 2021,
 *     Agronomy 11:907), coir hardly; mixes differ</td></tr>
 * <tr><td>evaporation</td><td>L(0.050 mm/h/kPa, 0.2)</td><td>still room air, behind the rim: about
 *     1.2 mm a day at 1 kPa</td></tr>
 * <tr><td>transpiration</td><td>L(0.0062 mL/h/cm²/kPa, 0.2)</td><td>a leaf conductance near 0.1
 *     mol/m²/s</td></tr>
 * <tr><td>critical FTSW</td><td>U(0.25, 0.40)</td><td>commonly 0.2 to 0.4 (from memory)</td></tr>
 * <tr><td>greatest leaf area</td><td>L(400 cm², 0.35)</td><td>a rooted cup in sun is nearly dry in two to
 *     three days: common practice</td></tr>
 * <tr><td>leaf growth</td><td>L(0.08 /d, 0.15)</td><td>some two months to full leaf</td></tr>
 * <tr><td>bud break</td><td>U(8 d, 30 d)</td><td>dormant wood indoors: common practice</td></tr>
 * <tr><td>days to white / toughened / circling</td><td>L(24, 0.3) / L(10, 0.25) / L(20, 0.3)</td>
 *     <td>at best temperature; three to five weeks to callus and root at 18 to 21 °C (from memory)</td></tr>
 * <tr><td>rot hours</td><td>L(110 h, 0.4)</td><td>48 h of flooding brought severe rot (Blaker and
 *     MacDonald 1981, abstract); death comes later: our choice</td></tr>
 * <tr><td>wilt depletion</td><td>U(0.84, 0.94)</td><td>fine roots die before the last water is
 *     gone</td></tr>
 * <tr><td>wilt hours</td><td>L(60 h, 0.4)</td><td>wilting is too late a sign: common practice</td></tr>
 * </table>
 */
final class TraitTable {
  private TraitTable() {}

  static CupTraits draw(Vessel vessel, Mix mix, Cup cup, SplittableRandom random) {
    MixColumn.Cone asEntered = NominalCup.cone(vessel);
    MixColumn.Cone cone =
        new MixColumn.Cone(
            asEntered.baseRadiusCm(),
            asEntered.topRadiusCm(),
            asEntered.depthCm() * normal(random, 1, 0.02));
    double saturated = Math.min(0.97, mix.saturated() + normal(random, 0, 0.012));
    MixColumn.Retention retention =
        new MixColumn.Retention(
            saturated,
            Math.min(saturated * 0.8, mix.residual() * lognormal(random, 1, 0.10)),
            mix.alphaPerCm() * lognormal(random, 1, 0.12),
            1 + (mix.n() - 1) * lognormal(random, 1, 0.06));
    double unavailable = Math.min(saturated * 0.8, mix.unavailable() * lognormal(random, 1, 0.10));
    double dryMixG = mix.dryDensityGPerMl() * new MixColumn(cone, retention).volumeMl;
    CupTraits.FilledMix filled =
        new CupTraits.FilledMix(
            cone,
            retention,
            unavailable,
            Math.max(0.02, mix.leastAir() + normal(random, 0, 0.01)),
            vessel.emptyG() + dryMixG * normal(random, 1, 0.04),
            lognormal(random, 7.0 / 60 * 0.22 / mix.alphaPerCm(), 0.4),
            lognormal(random, 360, 0.4),
            uniform(random, 0.3, 0.95),
            lognormal(random, 0.050, 0.2));
    return new CupTraits(filled, plant(cup, random));
  }

  private static CupTraits.PlantTraits plant(Cup cup, SplittableRandom random) {
    return new CupTraits.PlantTraits(
        cup.cuttingG(),
        lognormal(random, 0.0062, 0.2),
        uniform(random, 0.25, 0.40),
        lognormal(random, 400, 0.35),
        lognormal(random, 0.08, 0.15),
        uniform(random, 8, 30),
        new CupTraits.RootDays(
            lognormal(random, 24, 0.3), lognormal(random, 10, 0.25), lognormal(random, 20, 0.3)),
        lognormal(random, 110, 0.4),
        uniform(random, 0.84, 0.94),
        lognormal(random, 60, 0.4));
  }

  private static double normal(SplittableRandom random, double mean, double sd) {
    return mean + sd * random.nextGaussian();
  }

  private static double lognormal(SplittableRandom random, double median, double sdOfLog) {
    return median * StrictMath.exp(sdOfLog * random.nextGaussian());
  }

  private static double uniform(SplittableRandom random, double least, double most) {
    return least + (most - least) * random.nextDouble();
  }
}
