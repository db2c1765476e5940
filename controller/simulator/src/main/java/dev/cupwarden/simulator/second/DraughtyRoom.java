package dev.cupwarden.simulator.second;

import dev.cupwarden.core.setup.Place;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Room;
import java.time.Duration;
import java.time.Instant;
import java.util.SplittableRandom;

/**
 * A spare room: walls that hold warmth, a radiator that switches, a lamp on a timer, often a fan
 * that runs in turns and a heat mat with a thermostat of its own, and a window that is opened to
 * air the room, in frost too, and now and then forgotten. Its sensors are a little off. Figures:
 * the project's choice.
 */
public final class DraughtyRoom implements Room {
  private static final double AIR_H = 0.35;
  private static final double WALLS_H = 40;
  private static final double ROOTS_H = 1.8;

  private final Place place;
  private final Outside outside;
  private final SplittableRandom random;
  private final Sensors sensors;
  private final double dayC;
  private final double nightC;
  private final double lampUmol;
  private final int lampFrom;
  private final int lampTo;
  private final boolean fan;
  private final double matC;
  private final double vapourRisePa;
  private Instant last;
  private Instant windowUntil;
  private double airC;
  private double wallC;
  private double rootC;
  private double vapourPa;
  private boolean radiator;
  private boolean mat;

  /** For so many days from the start. */
  public DraughtyRoom(Place place, Instant start, int days, long seed) {
    this.random = new SplittableRandom(seed);
    this.place = place;
    this.outside = new Outside(place, start, days, random);
    this.sensors = new Sensors(random.split());
    this.dayC = 18 + 3.5 * random.nextDouble();
    this.nightC = dayC - 1 - 3 * random.nextDouble();
    this.lampUmol = 60 + 100 * random.nextDouble();
    this.lampFrom = 6 + random.nextInt(3);
    this.lampTo = lampFrom + 12 + random.nextInt(3);
    this.fan = random.nextDouble() < 0.6;
    this.matC = random.nextDouble() < 0.5 ? 20 + 2 * random.nextDouble() : Double.NaN;
    this.vapourRisePa = 220 + 260 * random.nextDouble();
    this.last = start;
    this.windowUntil = start;
    this.airC = dayC;
    this.wallC = dayC - 1.5;
    this.rootC = dayC - 0.5;
    this.vapourPa = 1000;
  }

  @Override
  public Air at(Instant at) {
    double h = Duration.between(last, at).toSeconds() / 3600.0;
    last = at;
    var clock = at.atZone(place.zone());
    double hour = clock.getHour() + clock.getMinute() / 60.0;
    boolean lamp = hour >= lampFrom && hour < lampTo;
    double outsideC = outside.airC(at);
    double sun = outside.lightUmolPerM2S(at);
    window(at, hour, h);
    boolean open = at.isBefore(windowUntil);
    warm(h, hour, outsideC, open, lamp, sun);
    damp(h, outsideC, open);
    double wind = open ? 0.35 : Breeze.STILL_M_PER_S;
    boolean blows = fan && lamp && clock.getMinute() % 60 < 15;
    double rhPct = Math.max(12, Math.min(98, 100 * vapourPa / Penman.vapourPa(airC)));
    return new Breeze(airC, rhPct, rootC, sun + (lamp ? lampUmol : 0), blows ? wind + 0.5 : wind);
  }

  /** Aired for minutes most mornings, left open for hours on some evening of the month. */
  private void window(Instant at, double hour, double h) {
    double chance = random.nextDouble();
    double length = random.nextDouble();
    if (at.isBefore(windowUntil) || hour < 7 || hour > 22) {
      return;
    }
    if (chance < 0.055 * h) {
      windowUntil = at.plusSeconds(Math.round(300 + 1500 * length));
    } else if (chance < 0.0575 * h) {
      windowUntil = at.plusSeconds(Math.round(7200 + 36_000 * length));
    }
  }

  private void warm(
      double h, double hour, double outsideC, boolean open, boolean lamp, double sun) {
    double aimC = hour >= 6 && hour < 22.5 ? dayC : nightC;
    radiator = airC < aimC - 0.6 || (radiator && airC < aimC + 0.4);
    double lost = open ? 0.7 : 0.06;
    double settlesC =
        wallC
            + (outsideC - wallC) * lost
            + (radiator ? 7 * (1 - lost) : 0)
            + (lamp ? 0.8 : 0)
            + sun / 90;
    airC += (settlesC - airC) * -StrictMath.expm1(-h / AIR_H);
    double wallAimC = airC + (outsideC - airC) * 0.12;
    wallC += (wallAimC - wallC) * -StrictMath.expm1(-h / WALLS_H);
    mat = !Double.isNaN(matC) && (rootC < matC - 0.8 || (mat && rootC < matC + 0.8));
    double underC = airC - 0.4 + (mat ? 9 : 0);
    rootC += (underC - rootC) * -StrictMath.expm1(-h / ROOTS_H);
  }

  private void damp(double h, double outsideC, boolean open) {
    double outsidePa = 0.82 * Penman.vapourPa(outsideC);
    double changesPerH = open ? 6 : 0.5;
    double aimPa = outsidePa + (open ? 0.15 : 1) * vapourRisePa;
    vapourPa += (aimPa - vapourPa) * -StrictMath.expm1(-h * changesPerH);
    vapourPa = Math.min(vapourPa, 0.98 * Penman.vapourPa(airC));
  }

  @Override
  public Air shown(Air air) {
    return sensors.show(air);
  }

  /** What the sensors make of it: each off for good by a little, and noisy. */
  private static final class Sensors {
    private final SplittableRandom random;
    private final double airOffC;
    private final double rhOffPct;
    private final double rootOffC;
    private final double lightTimes;

    Sensors(SplittableRandom random) {
      this.random = random;
      this.airOffC = 0.25 * random.nextGaussian();
      this.rhOffPct = 2 * random.nextGaussian();
      this.rootOffC = 0.2 * random.nextGaussian();
      this.lightTimes = 1 + 0.08 * random.nextGaussian();
    }

    Air show(Air air) {
      double rhPct = air.rhPct() + rhOffPct + 0.3 * random.nextGaussian();
      return new Breeze(
          air.airC() + airOffC + 0.05 * random.nextGaussian(),
          Math.max(0, Math.min(100, rhPct)),
          air.rootC() + rootOffC + 0.05 * random.nextGaussian(),
          Math.max(0, air.lightUmolPerM2S() * lightTimes),
          Breeze.STILL_M_PER_S);
    }
  }
}
