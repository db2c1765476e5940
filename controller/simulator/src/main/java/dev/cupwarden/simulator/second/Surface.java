package dev.cupwarden.simulator.second;

/**
 * The top of the mix: a puddle that sinks in or runs down the wall, fibres that shed water once
 * they have been dry, and evaporation.
 */
final class Surface {
  /** Rest of resistance to vapour: s/m for each unit of pores empty (Camillo and Gurney 1986). */
  private static final double DRY_SPAN_S_PER_M = 4140;

  private static final double DRY_FROM_S_PER_M = 805;
  private static final double SHRINKS_BELOW = 0.62;

  private final Nature.BedNature nature;
  private final Bed bed;
  private final Parcel puddle = new Parcel();
  private double sheds;
  private double evaporatedMl;

  Surface(Nature.BedNature nature, Bed bed) {
    this.nature = nature;
    this.bed = bed;
  }

  Parcel puddle() {
    return puddle;
  }

  double evaporatedMl() {
    return evaporatedMl;
  }

  /** How readily fibres take water up now, 0 to 1. */
  double wets() {
    return 1 - 0.9 * sheds;
  }

  /** Water sinks in; what the shrunken or shedding mix does not hold runs past it. */
  void sink(double h, Parcel below) {
    fibres(h);
    if (puddle.ml <= 0) {
      return;
    }
    double full = bed.waterMl() / (bed.porosity() * bed.volumeMl());
    double shrunk = Math.max(0, Math.min(1, (SHRINKS_BELOW - full) / 0.45));
    double past = Math.min(0.95, nature.gap() * shrunk + 0.5 * sheds);
    double movesMl = Math.min(puddle.ml, nature.soaksMlPerH() * h);
    double pastMl = movesMl * past;
    int lowest = Bed.LAYERS - 1;
    // Some of what runs down the wall is caught by the lowest layer.
    puddle.flow(Math.min(0.25 * pastMl * wets(), bed.roomMl(lowest)), bed.layer(lowest));
    puddle.flow(0.75 * pastMl, below);
    double intoMl = (movesMl - pastMl) * wets();
    for (int i = 0; i < 2; i++) {
      // A fast pass wets the second layer, too, once the first is near full.
      double mostMl = i == 0 ? Math.max(0, bed.roomMl(0) - 0.02 * bed.layerMl(0)) : bed.roomMl(i);
      double ml = Math.min(intoMl, mostMl);
      puddle.flow(ml, bed.layer(i));
      intoMl -= ml;
    }
  }

  /** They turn shedding over a day or two of a dry top and lose it within hours of a wet one. */
  private void fibres(double h) {
    double top = (bed.full(0) + bed.full(1)) / 2;
    double towards = nature.shedding() * Math.max(0, Math.min(1, (0.38 - top) / 0.22));
    double lagH = towards > sheds ? 36 : 3;
    sheds += (towards - sheds) * -StrictMath.expm1(-h / lagH);
  }

  /** Water leaves for the air; salts stay. */
  void dry(double h, Breeze air) {
    double empty = bed.porosity() - bed.theta(0);
    double own = puddle.ml > 0 ? 0 : Math.max(0, DRY_SPAN_S_PER_M * empty - DRY_FROM_S_PER_M);
    double airSPerM = 180 * StrictMath.sqrt(Breeze.STILL_M_PER_S / air.windMPerS());
    double deficitPa = Penman.deficitPa(air.rootC(), dampAtRoot(air));
    double netW = 0.06 * air.lightUmolPerM2S();
    double g = Penman.lossGPerHPerM2(air.rootC(), deficitPa, netW, airSPerM, own);
    double ml = g * h * bed.topCm2() / 10_000;
    double fromPuddleMl = puddle.dry(ml);
    double spareMl = Math.max(0, bed.layer(0).ml - 0.03 * bed.layerMl(0));
    double fromTopMl = bed.layer(0).dry(Math.min(spareMl, ml - fromPuddleMl));
    evaporatedMl += fromPuddleMl + fromTopMl;
  }

  /** Humidity of the room's vapour at the mix's own temperature, percent. */
  private static double dampAtRoot(Breeze air) {
    double vapour = Penman.vapourPa(air.airC()) * air.rhPct() / 100;
    return Math.min(100, 100 * vapour / Penman.vapourPa(air.rootC()));
  }
}
