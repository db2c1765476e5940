package dev.cupwarden.simulator.physics;

import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Mix;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Balance;
import dev.cupwarden.simulator.world.TrueCup;
import java.util.SplittableRandom;

/**
 * One cup as it truly is. Water given lies on the mix, sinks in within minutes, runs through where
 * the mix has dried and sheds it, drains above capacity, evaporates from the surface in two stages
 * and leaves through the cutting. Nitrogen and salts go with it. What came in is always equal to
 * what is there and what went out; see {@link Balance}.
 *
 * <p>Mutable and not for several threads. Density of water is taken as 1 g/mL.
 */
public final class SimulatedCup implements TrueCup {
  /** While water moves fast, a step is no longer than this. */
  private static final double QUICK_STEP_S = 60;

  private static final double CALM_STEP_S = 300;

  /**
   * Water that evaporation can take from the top of the mix, and the part of it that goes at the
   * full rate, mm: total and readily evaporable water of FAO-56 (eq. 74), for some 15 mm of mix.
   */
  private static final double EVAPORABLE_MM = 7;

  private static final double READILY_EVAPORABLE_MM = 2.5;

  private final CupTraits traits;
  private final FeedChemistry feed;
  private final MixColumn column;
  private final Cutting cutting;
  private final double availableMl;
  private final double airDryMl;

  private final Solution pond = new Solution();
  private final Solution mix = new Solution();
  private final Solution tray = new Solution();
  private final Solution given = new Solution();
  private final Solution start = new Solution();
  private double surfaceDryMm;
  private double shedding;
  private double evaporatedMl;
  private double transpiredMl;
  private double builtInMl;

  /**
   * A cup as the grower set it up, soaked and drained once, with the truth drawn from the seed.
   *
   * @param feed what feed at label strength brings
   */
  public SimulatedCup(Vessel vessel, Mix mix, Cup cup, FeedChemistry feed, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    this.traits = TraitTable.draw(vessel, mix, cup, random);
    this.feed = feed;
    this.column = new MixColumn(traits.mix().cone(), traits.mix().retention());
    this.cutting = new Cutting(traits, cup.stage());
    this.availableMl = column.capacityMl - traits.mix().unavailable() * column.volumeMl;
    this.airDryMl = 0.5 * traits.mix().unavailable() * column.volumeMl;
    double ml = column.capacityMl * (0.90 + 0.08 * random.nextDouble());
    this.mix.add(ml, 0, ml * feed.saltMgPerMl(0));
    this.start.add(ml, 0, this.mix.saltMg);
  }

  @Override
  public void give(double ml, double strength) {
    if (!(ml >= 0) || !(strength >= 0)) {
      throw new IllegalArgumentException("cannot give " + ml + " mL at strength " + strength);
    }
    double nMg = ml * strength * feed.nMgPerMl();
    double saltMg = ml * feed.saltMgPerMl(strength);
    pond.add(ml, nMg, saltMg);
    given.add(ml, nMg, saltMg);
  }

  @Override
  public void advance(double seconds, Air air) {
    advance(seconds, RoomAir.of(air));
  }

  /** Lets time pass in that air. */
  public void advance(double seconds, RoomAir air) {
    double leftS = seconds;
    while (leftS > 0) {
      boolean quick = pond.ml > 0 || mix.ml > column.capacityMl + 0.5;
      double stepS = Math.min(leftS, quick ? QUICK_STEP_S : CALM_STEP_S);
      step(stepS / 3600, air);
      leftS -= stepS;
    }
  }

  private void step(double h, RoomAir air) {
    if (pond.ml > 0) {
      infiltrate(h);
    }
    if (mix.ml > column.capacityMl) {
      double part = 1 - StrictMath.exp(-h / traits.mix().drainH());
      mix.pour((mix.ml - column.capacityMl) * part, tray);
    }
    double depletion = depletion();
    evaporate(h, air, depletion);
    live(h, air, depletion);
    dryOrWetTheFibres(h, depletion);
  }

  private void infiltrate(double h) {
    double sinkingMl = Math.min(pond.ml, traits.mix().infiltrationMlPerH() * h);
    // A deep pond finds the cracks; a small pass is taken up by the fibres around it.
    double throughMl =
        sinkingMl * shedding * traits.mix().greatestBypass() * pond.ml / (pond.ml + 30);
    pond.pour(throughMl, tray);
    double inMl = Math.min(sinkingMl - throughMl, Math.max(0, column.saturatedMl - mix.ml));
    pond.pour(inMl, mix);
    surfaceDryMm = Math.max(0, surfaceDryMm - inMl / column.topAreaCm2 * 10);
  }

  private void evaporate(double h, RoomAir air, double depletion) {
    double fullMmPerH = traits.mix().evaporationMmPerHPerKpa() * Math.max(0, air.vpdKpa());
    double stage =
        surfaceDryMm <= READILY_EVAPORABLE_MM
            ? 1
            : Math.max(
                0.02, (EVAPORABLE_MM - surfaceDryMm) / (EVAPORABLE_MM - READILY_EVAPORABLE_MM));
    double mm = fullMmPerH * stage * h;
    double wantedMl = mm * column.topAreaCm2 / 10;
    double fromPondMl = Math.min(pond.ml, wantedMl);
    double left = (mix.ml - airDryMl) / (0.05 * column.volumeMl);
    double fromMixMl = (wantedMl - fromPondMl) * Math.max(0, Math.min(1, left));
    pond.evaporate(fromPondMl);
    mix.evaporate(fromMixMl);
    evaporatedMl += fromPondMl + fromMixMl;
    double moist = Math.max(0, 1 - depletion);
    double risesMm = 0.03 * surfaceDryMm * moist * moist * h;
    double driedMm = fromMixMl / column.topAreaCm2 * 10;
    surfaceDryMm = Math.max(0, Math.min(EVAPORABLE_MM, surfaceDryMm + driedMm - risesMm));
  }

  private void live(double h, RoomAir air, double depletion) {
    double spareMl = Math.max(0, mix.ml - traits.mix().unavailable() * column.volumeMl);
    double lostMl = Math.min(spareMl, cutting.transpirationMlPerH(air, 1 - depletion) * h);
    mix.evaporate(lostMl);
    transpiredMl += lostMl;
    double builtMl = cutting.live(h, air, depletion, airFraction(), ecMsPerCm());
    if (builtMl > 0) {
      mix.evaporate(builtMl);
      builtInMl += builtMl;
    }
    double nMg = Math.min(mix.nMg, cutting.nWantedMg(h, mix.nMg / mix.ml, air.rootC()));
    // Other ions go in with the nitrogen: about as much salt as the feed carries with it.
    double saltMg = Math.min(mix.saltMg * 0.05, nMg * 5);
    mix.nMg -= nMg;
    mix.saltMg -= saltMg;
    cutting.takeUp(nMg, saltMg);
  }

  /** Fibres grow water-shedding over a day or two of dryness and lose it again within an hour. */
  private void dryOrWetTheFibres(double h, double depletion) {
    double towards = Math.max(0, Math.min(1, (depletion - 0.55) / 0.4));
    double rateH = towards > shedding ? 24 : 0.75;
    shedding += (towards - shedding) * Math.min(1, h / rateH);
  }

  @Override
  public double grossG() {
    return traits.mix().dryG() + cutting.massG() + mix.ml + pond.ml;
  }

  @Override
  public double waterMl() {
    return mix.ml + pond.ml;
  }

  @Override
  public double trayMl() {
    return tray.ml;
  }

  @Override
  public double capacityMl() {
    return column.capacityMl;
  }

  @Override
  public double availableMl() {
    return availableMl;
  }

  /** Gross mass at true capacity with the plant as it is, g. */
  public double capacityG() {
    return traits.mix().dryG() + cutting.massG() + column.capacityMl;
  }

  @Override
  public double depletion() {
    return (column.capacityMl - mix.ml - pond.ml) / availableMl;
  }

  @Override
  public double depletionAtAir(double airFraction) {
    return (column.capacityMl
            - (traits.mix().retention().saturated() - airFraction) * column.volumeMl)
        / availableMl;
  }

  @Override
  public double airFraction() {
    return traits.mix().retention().saturated() - mix.ml / column.volumeMl;
  }

  /** Conductivity of the water in the mix as it is now, mS/cm. */
  public double ecMsPerCm() {
    return ecAt(mix.ml);
  }

  @Override
  public double ecAtCapacityMsPerCm() {
    return ecAt(column.capacityMl);
  }

  private double ecAt(double ml) {
    return mix.saltMg / (ml * FeedChemistry.SALT_MG_PER_ML_AT_ONE_MS_PER_CM);
  }

  @Override
  public RootStage stage() {
    return cutting.stage();
  }

  @Override
  public boolean alive() {
    return !cutting.dead();
  }

  @Override
  public boolean rotted() {
    return cutting.rotted();
  }

  @Override
  public double rot() {
    return cutting.rot();
  }

  @Override
  public double leafCm2() {
    return cutting.leafCm2();
  }

  @Override
  public void infect(double rise) {
    cutting.infect(rise);
  }

  @Override
  public Balance balance() {
    return new Balance(
        start.ml + given.ml,
        mix.ml + pond.ml,
        tray.ml + evaporatedMl + transpiredMl + builtInMl,
        start.nMg + given.nMg,
        mix.nMg + pond.nMg,
        tray.nMg + cutting.nTakenMg(),
        start.saltMg + given.saltMg,
        mix.saltMg + pond.saltMg,
        tray.saltMg + cutting.saltTakenMg());
  }
}
