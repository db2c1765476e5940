package dev.cupwarden.core.estimate;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;

/**
 * Cups on scales in a room, minute by minute, to tune and measure the estimator on. It knows
 * nothing of the estimator. Distributions, and why:
 *
 * <ul>
 *   <li>room: 20 ± 5 °C over the day, warmest at 15 h; 55 ± 10 % humidity, driest when warmest: a
 *       window-sill in winter with heating by day;
 *   <li>drying: 0.15 to 0.7 g/h per kPa and up to as much again by light from 8 to 20 h: cups of
 *       half a litre last from some days to a fortnight (common practice);
 *   <li>scale: noise 0.05 to 0.1 g, steps of 0.01 g; drift 0.2 to 1 g per 10 °C of either sign,
 *       behind the room by 30 to 60 min; creep 0.02 to 0.1 % of a change of load within 8 to 20 min
 *       (from memory, of data sheets of small cells);
 *   <li>what stands above container capacity drains with a time constant of 15 min (guess);
 *   <li>a pass of 10 to 30 mL brings 90 to 100 % of what was ordered.
 * </ul>
 */
final class BenchOfScales {
  private static final double DAY_MIN = 1440;
  private static final double CAPACITY_G = Cups.TALL.capacityG();
  private static final double DRAINING_MIN = 15;

  /** One place: its scale, and the cup that stands on it. */
  static final class Place {
    final double noiseG;
    final double driftGPerC;
    final double lagMin;
    final double creepPart;
    final double creepMin;
    Plant plant;
    boolean off;
    double scaleTempC = 15;
    private double creepG;

    Place(SplittableRandom random, Plant plant) {
      noiseG = random.nextDouble(0.05, 0.1);
      driftGPerC = random.nextDouble(0.02, 0.1) * (random.nextBoolean() ? 1 : -1);
      lagMin = random.nextDouble(30, 60);
      creepPart = random.nextDouble(0.0002, 0.001);
      creepMin = random.nextDouble(8, 20);
      this.plant = plant;
    }

    void loadChanged(double changeG) {
      creepG -= creepPart * changeG;
    }

    double loadG() {
      return off ? 0 : plant.massG;
    }
  }

  /** A cup with its cutting. */
  static final class Plant {
    final double gPerHPerKpa;
    final double lightGPerH;
    double massG;

    Plant(SplittableRandom random) {
      gPerHPerKpa = random.nextDouble(0.15, 0.7);
      lightGPerH = gPerHPerKpa * random.nextDouble(0, 1);
      massG = random.nextDouble(230, 340);
    }
  }

  final List<Place> places = new ArrayList<>();
  final SplittableRandom random;
  double minute;

  BenchOfScales(long seed, int cups) {
    random = new SplittableRandom(seed);
    for (int i = 0; i < cups; i++) {
      places.add(new Place(random.split(), new Plant(random.split())));
    }
  }

  Instant now() {
    return Cups.START.plusSeconds(Math.round(minute * 60));
  }

  double airC() {
    return 20 + 5 * warmth(minute);
  }

  double vpdKpa() {
    return vpdKpa(minute);
  }

  double meanVpdKpa(double hours) {
    double sum = 0;
    int steps = 48;
    for (int i = 0; i < steps; i++) {
      sum += vpdKpa(minute + (i + 0.5) / steps * hours * 60);
    }
    return sum / steps;
  }

  private static double vpdKpa(double minute) {
    double airC = 20 + 5 * warmth(minute);
    double rhPct = 55 - 10 * warmth(minute);
    // FAO-56 eq. 11.
    return 0.6108 * Math.exp(17.27 * airC / (airC + 237.3)) * (1 - rhPct / 100);
  }

  private static double warmth(double minute) {
    return Math.cos(2 * Math.PI * (dayMinute(minute) - 15 * 60) / DAY_MIN);
  }

  /** The bench starts at 8 h. */
  private static double dayMinute(double minute) {
    return (minute + 480) % DAY_MIN;
  }

  private static boolean light(double minute) {
    return dayMinute(minute) >= 480 && dayMinute(minute) < 1200;
  }

  /** One minute of drying, warming and creeping. */
  void passMinute() {
    minute++;
    for (Place place : places) {
      Plant plant = place.plant;
      double gPerH = plant.gPerHPerKpa * vpdKpa() + (light(minute) ? plant.lightGPerH : 0);
      plant.massG -= gPerH / 60;
      plant.massG -= Math.max(0, plant.massG - CAPACITY_G) / DRAINING_MIN;
      place.scaleTempC += (airC() - place.scaleTempC) / place.lagMin;
      place.creepG *= 1 - 1 / place.creepMin;
    }
  }

  double shownG(Place place) {
    double shown =
        place.loadG()
            + place.driftGPerC * (place.scaleTempC - 20)
            + place.creepG
            + place.noiseG * gauss();
    return Math.round(shown * 100) / 100.0;
  }

  private double gauss() {
    double u = 1 - random.nextDouble();
    return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random.nextDouble());
  }

  /** Some place whose cup can take that much below its capacity, or else the lightest cup's. */
  int withRoom(double gainG) {
    int[] free =
        IntStream.range(0, places.size())
            .filter(i -> places.get(i).plant.massG + gainG < CAPACITY_G)
            .toArray();
    if (free.length > 0) {
      return free[random.nextInt(free.length)];
    }
    return IntStream.range(0, places.size())
        .boxed()
        .min(Comparator.comparingDouble(i -> places.get(i).plant.massG))
        .orElseThrow();
  }

  void water(Place place, double gainG) {
    place.plant.massG += gainG;
    if (!place.off) {
      place.loadChanged(gainG);
    }
  }

  void lift(Place place) {
    place.loadChanged(-place.loadG());
    place.off = true;
  }

  void putBack(Place place) {
    place.off = false;
    place.loadChanged(place.loadG());
  }

  void swap(Place one, Place other) {
    double changeG = other.plant.massG - one.plant.massG;
    Plant kept = one.plant;
    one.plant = other.plant;
    other.plant = kept;
    one.loadChanged(changeG);
    other.loadChanged(-changeG);
  }
}
