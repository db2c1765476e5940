package dev.cupwarden.simulator.second;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Feed;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Balance;
import dev.cupwarden.simulator.world.MixSheet;
import dev.cupwarden.simulator.world.TrueCup;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * One cup of the second world: a puddle on top, {@link Bed} below it, perhaps a saucer or a basin
 * under that, and a {@link Woody} cutting in it.
 *
 * <p>Mutable and not for several threads.
 */
public final class LayeredCup implements TrueCup {
  private static final double QUICK_S = 60;
  private static final double CALM_S = 300;

  /** Salts by conductivity on the scale that most meters of the trade print, mg/mL a mS/cm. */
  private static final double SALT_SCALE = 0.70;

  private static final double SAUCER_G = 22;
  private static final double SAUCER_MOST_ML = 70;
  private static final double SAUCER_CM2 = 85;

  private final Nature nature;
  private final Bed bed;
  private final Surface surface;
  private final Woody plant;
  private final double labelNMgPerMl;
  private final double labelSaltMgPerMl;
  private final double waterSaltMgPerMl;
  private final double woodG;

  private final Parcel given = new Parcel();
  private final Parcel start = new Parcel();
  private final Parcel saucer = new Parcel();
  private final Parcel tray = new Parcel();
  private boolean onSaucer;
  private boolean covered;
  private double basinCm;
  private double movingMlPerH;

  /**
   * A cup as the grower set it up, watered and drained, with the truth drawn from the seed.
   *
   * @param sheet of its mix as entered
   * @param feed what feed at label strength is made with
   * @param waterEcMsPerCm of the plain water
   */
  public LayeredCup(
      Vessel vessel,
      MixSheet sheet,
      Cup cup,
      Optional<Feed> feed,
      double waterEcMsPerCm,
      long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    this.nature = Nature.draw(vessel, sheet, cup, random);
    Nature.BedNature mix = nature.bed();
    this.bed = new Bed(mix.topCm(), mix.baseCm(), mix.depthCm(), mix.curve());
    this.surface = new Surface(nature.bed(), bed);
    this.plant = new Woody(nature, bed, cup.stage());
    this.labelNMgPerMl = feed.map(bag -> bag.nPct() * bag.labelGPerL() / 100).orElse(0.0);
    this.labelSaltMgPerMl =
        feed.map(bag -> bag.ecMsPerCmPerGPerL() * bag.labelGPerL() * SALT_SCALE).orElse(0.0);
    this.waterSaltMgPerMl = waterEcMsPerCm * SALT_SCALE;
    this.woodG = cup.cuttingG() - nature.wood().stemMl();
    bed.fill(0.88 + 0.10 * random.nextDouble(), waterSaltMgPerMl);
    start.take(bed.waterMl() + plant.heldMl(), 0, bed.saltMg());
  }

  @Override
  public void give(double ml, double strength) {
    if (!(ml >= 0 && strength >= 0)) {
      throw new IllegalArgumentException("cannot give " + ml + " mL at strength " + strength);
    }
    double nMg = ml * strength * labelNMgPerMl;
    double saltMg = ml * (waterSaltMgPerMl + strength * labelSaltMgPerMl);
    surface.puddle().take(ml, nMg, saltMg);
    given.take(ml, nMg, saltMg);
  }

  @Override
  public void advance(double seconds, Air air) {
    Breeze breeze = covered ? Breeze.of(air).underDome() : Breeze.of(air);
    double left = seconds;
    while (left > 0) {
      boolean quick = surface.puddle().ml > 0 || basinCm > 0 || Math.abs(movingMlPerH) > 6;
      double stepS = Math.min(left, quick ? QUICK_S : CALM_S);
      step(stepS / 3600, breeze);
      left -= stepS;
    }
  }

  private void step(double h, Breeze air) {
    surface.sink(h, below());
    base(h);
    bed.pass();
    surface.dry(h, air);
    plant.live(h, air);
    if (ecAtCapacityMsPerCm() > 5) {
      plant.wound(0.002 * h);
    }
  }

  /** Where water that runs out below comes to. */
  private Parcel below() {
    return onSaucer ? saucer : tray;
  }

  private void base(double h) {
    double standsCm = basinCm > 0 ? basinCm : saucer.ml / SAUCER_CM2;
    double ml = bed.solve(h, standsCm, nature.bed().open());
    movingMlPerH = ml / h;
    Parcel lowest = bed.layer(Bed.LAYERS - 1);
    if (ml > 0) {
      lowest.flow(ml, below());
    } else if (basinCm > 0) {
      double inMl = Math.min(-ml * surface.wets(), bed.roomMl(Bed.LAYERS - 1));
      lowest.take(inMl, 0, inMl * waterSaltMgPerMl);
      given.take(inMl, 0, inMl * waterSaltMgPerMl);
    } else {
      saucer.flow(Math.min(-ml * surface.wets(), bed.roomMl(Bed.LAYERS - 1)), lowest);
    }
    saucer.flow(saucer.ml - SAUCER_MOST_ML, tray);
  }

  @Override
  public boolean canStandInWater() {
    return true;
  }

  @Override
  public void standInWater(double depthCm) {
    basinCm = Math.max(0, depthCm);
  }

  @Override
  public void cover(boolean nowCovered) {
    covered = nowCovered;
  }

  @Override
  public void saucer(boolean under) {
    onSaucer = under;
    if (!under) {
      saucer.flow(saucer.ml, tray);
    }
  }

  @Override
  public double grossG() {
    double plantG = woodG + plant.heldMl() + plant.grownG();
    double aboutG = (onSaucer ? SAUCER_G + saucer.ml : 0) + (covered ? 8 : 0);
    return nature.bed().dryG() + plantG + waterMl() + aboutG;
  }

  @Override
  public double waterMl() {
    return bed.waterMl() + surface.puddle().ml;
  }

  @Override
  public double trayMl() {
    return tray.ml + saucer.ml;
  }

  @Override
  public double capacityMl() {
    return bed.drainedMl();
  }

  @Override
  public double availableMl() {
    return bed.drainedMl() - nature.bed().unavailable() * bed.volumeMl();
  }

  @Override
  public double depletion() {
    return (bed.drainedMl() - waterMl()) / availableMl();
  }

  @Override
  public double depletionAtAir(double airFraction) {
    double ml = (nature.bed().curve().porosity() - airFraction) * bed.volumeMl();
    return (bed.drainedMl() - ml) / availableMl();
  }

  @Override
  public double airFraction() {
    return nature.bed().curve().porosity() - bed.waterMl() / bed.volumeMl();
  }

  @Override
  public double ecAtCapacityMsPerCm() {
    return bed.saltMg() / (bed.drainedMl() * SALT_SCALE);
  }

  @Override
  public RootStage stage() {
    return plant.stage();
  }

  @Override
  public boolean alive() {
    return plant.alive();
  }

  @Override
  public boolean rotted() {
    return plant.rotted();
  }

  @Override
  public double rot() {
    return plant.lesion();
  }

  @Override
  public double leafCm2() {
    return plant.leafCm2();
  }

  @Override
  public void infect(double rise) {
    plant.catchIt(rise);
  }

  /** Volume fraction of water in a layer, the first at the top. */
  double theta(int layer) {
    return bed.theta(layer);
  }

  @Override
  public Balance balance() {
    Parcel puddle = surface.puddle();
    return new Balance(
        start.ml + given.ml,
        bed.waterMl() + puddle.ml + saucer.ml + plant.heldMl(),
        tray.ml + surface.evaporatedMl() + plant.transpiredMl(),
        start.nMg + given.nMg,
        bed.nMg() + puddle.nMg + saucer.nMg,
        tray.nMg + plant.nTakenMg(),
        start.saltMg + given.saltMg,
        bed.saltMg() + puddle.saltMg + saucer.saltMg,
        tray.saltMg + plant.saltTakenMg());
  }
}
