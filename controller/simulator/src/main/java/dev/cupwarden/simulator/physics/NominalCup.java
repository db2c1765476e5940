package dev.cupwarden.simulator.physics;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.Vessel;

/**
 * What a cup would hold if the bench file were exactly true, by the simulator's own sum over
 * layers.
 *
 * @param dryG vessel, dry mix and cutting, g
 * @param capacityMl water when drained, mL
 * @param availableMl water between capacity and where the cutting can take no more, mL
 */
public record NominalCup(double dryG, double capacityMl, double availableMl) {

  /** Of a cup as entered. */
  public static NominalCup of(Vessel vessel, Mix mix, Cup cup) {
    MixColumn column =
        new MixColumn(
            cone(vessel),
            new MixColumn.Retention(mix.saturated(), mix.residual(), mix.alphaPerCm(), mix.n()));
    return new NominalCup(
        vessel.emptyG() + mix.dryDensityGPerMl() * column.volumeMl + cup.cuttingG(),
        column.capacityMl,
        column.capacityMl - mix.unavailable() * column.volumeMl);
  }

  static MixColumn.Cone cone(Vessel vessel) {
    return new MixColumn.Cone(vessel.baseMm() / 20, vessel.topMm() / 20, vessel.depthMm() / 10);
  }
}
