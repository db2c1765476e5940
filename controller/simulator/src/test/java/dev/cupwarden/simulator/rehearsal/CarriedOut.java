package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Room;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;

/**
 * A spring in which a person carries half of a bench's cups out each morning and back each evening,
 * and says nothing of it. From the fourth day on it rains on every other of them; on the sixth the
 * first stays out until the next morning.
 *
 * @param world whose cups, air and scales these are
 * @param seed of the cups' truth, of the weather, the person's times, and of pump and scales
 */
record CarriedOut(World world, long seed) {
  /** Carried out are the first of them. */
  static final int CUPS = 12;

  static final int CARRIED = 6;
  static final LocalDate FIRST_DAY_OUT = LocalDate.of(2027, 4, 12);
  static final int DAYS_OUT = 8;

  /** Counted from 0, as all days out. */
  static final int FIRST_RAIN = 3;

  static final int FORGOTTEN_ON = 5;

  /** The scales know their cups by then. */
  private static final int DAYS_BEFORE = 10;

  private static final LocalTime LEAVES = LocalTime.of(8, 45);
  private static final LocalTime RETURNS = LocalTime.of(17, 15);

  /** So many minutes later, at the most, on any day. */
  private static final int LATER_MIN = 60;

  /** Showers. */
  private static final double LEAST_RAIN_MM = 2;

  private static final double MOST_RAIN_MM = 8;

  private static final double MM_TO_ML_PER_CM2 = 0.1;

  private static final List<Vessel> VESSELS = List.of(new Vessel("half-litre", 95, 65, 110, 14));

  /** An alert as it was raised, or told again. */
  record Told(Instant at, AlertNotice notice) {
    boolean of(String cup) {
      return cup.equals(notice.cup()) || notice.cups().contains(cup);
    }

    @Override
    public String toString() {
      return "%s %s %s %s".formatted(at, notice.code(), notice.cup(), notice.cups());
    }
  }

  /**
   * A return.
   *
   * @param gainedG how much heavier it came back than it left
   * @param beyondG how much heavier than it is the controller takes it to be an hour later
   * @param trusted whether the controller then goes by its weight
   */
  record Back(String cup, int day, double gainedG, double beyondG, boolean trusted) {}

  /** What came of it. */
  record Spring(List<Told> told, List<Back> backs, ZoneId zone, double spilledMl) {}

  private Bench bench() {
    Bench usual = UsualBench.of(CUPS);
    List<String> mixes = List.copyOf(usual.mixes().keySet());
    SortedMap<String, Cup> cups = new TreeMap<>();
    for (Cup cup : usual.cups().values()) {
      int i = cups.size();
      cups.put(
          cup.name(),
          new Cup(
              cup.name(),
              VESSELS.get(0).name(),
              mixes.get(i % mixes.size()),
              cup.plant(),
              Optional.of(LocalDate.of(2026, 11, 15)),
              i % 2 == 0 ? RootStage.TOUGHENED : RootStage.CIRCLING,
              cup.cuttingG(),
              Optional.empty(),
              Cup.Wiring.NONE));
    }
    return UsualBench.of(cups, VESSELS);
  }

  Spring run() throws SetupException {
    SplittableRandom seeds = new SplittableRandom(seed);
    Bench bench = bench();
    Place place = bench.place().orElseThrow();
    LocalDate first = FIRST_DAY_OUT.minusDays(DAYS_BEFORE);
    Instant start = first.atStartOfDay(place.zone()).toInstant();
    int days = DAYS_BEFORE + DAYS_OUT;
    Scene scene = new Scene(bench, world, seeds.nextLong());
    Room room = world.room(place, start, days, seeds.nextLong());
    Stand stand = new Stand(scene, world, FaultLevel.NONE, days, seeds.nextLong());
    CupwardenPolicy policy = new CupwardenPolicy(bench, scene.names());
    Carrier carrier = new Carrier(scene, stand, bench, start, seeds.split());
    List<Told> told = new ArrayList<>();
    long tickS = bench.tick().toSeconds();
    for (long tick = 0; tick < days * 86_400L / tickS; tick++) {
      long now = tick;
      Instant at = start.plusSeconds(tick * tickS);
      Air air = room.at(at);
      stand.reach(tick);
      if (tick % (86_400L / tickS) == 0) {
        stand.tanks().fill(0);
        stand.tanks().fill(1);
      }
      carrier.tick(tick, policy);
      Policy.Decision decision =
          policy.decide(
              new RehearsalReadings(
                  at,
                  room.shown(air),
                  stand.weigh(tick, air),
                  leftMl(stand.tanks()),
                  stand.said(),
                  stand.onBench(),
                  List.<JsonNode>of(),
                  false,
                  false));
      decision.waterings().forEach(pass -> stand.deliver(pass, now));
      decision.alerts().stream()
          .filter(notice -> notice.state().equals("raised"))
          .forEach(notice -> told.add(new Told(at, notice)));
      for (int cup = 0; cup < scene.count(); cup++) {
        boolean out = !stand.present(cup, tick);
        scene.cup(cup).advance((double) tickS, out ? outside(at, place.zone()) : air);
      }
    }
    return new Spring(told, carrier.backs, place.zone(), stand.spilledMl());
  }

  /** A bright day in April: 8 °C by night, 18 °C in the afternoon. */
  private static Air outside(Instant at, ZoneId zone) {
    double hour = at.atZone(zone).toLocalTime().toSecondOfDay() / 3600.0;
    double day = Math.cos((hour - 15) * Math.PI / 12);
    double airC = 13 + 5 * day;
    double light = Math.max(0, 700 * Math.cos((hour - 13) * Math.PI / 14));
    return RoomAir.of(airC, 60 - 15 * day, airC, light);
  }

  private static double[] leftMl(Tanks tanks) {
    double[] ml = new double[tanks.count()];
    for (int tank = 0; tank < ml.length; tank++) {
      ml[tank] = Math.rint(tanks.leftMl(tank));
    }
    return ml;
  }

  /** Whoever carries them. */
  private static final class Carrier {
    private final Scene scene;
    private final Stand stand;
    private final SplittableRandom random;
    private final long tickS;
    private final long[] leaves = new long[DAYS_OUT];
    private final long[] returns = new long[DAYS_OUT];
    private final double[] leftG = new double[CARRIED];
    private final double[] backG = new double[CARRIED];
    private final List<Back> backs = new ArrayList<>();
    private final long ticksADay;

    Carrier(Scene scene, Stand stand, Bench bench, Instant start, SplittableRandom random) {
      this.scene = scene;
      this.stand = stand;
      this.random = random;
      this.tickS = bench.tick().toSeconds();
      this.ticksADay = 86_400L / tickS;
      ZoneId zone = bench.place().orElseThrow().zone();
      for (int day = 0; day < DAYS_OUT; day++) {
        LocalDate date = FIRST_DAY_OUT.plusDays(day);
        leaves[day] = ticksTo(start, date.atTime(LEAVES).atZone(zone).toInstant());
        returns[day] = ticksTo(start, date.atTime(RETURNS).atZone(zone).toInstant());
      }
    }

    private long ticksTo(Instant start, Instant at) {
      long laterS = 60L * random.nextInt(LATER_MIN + 1);
      return (at.getEpochSecond() + laterS - start.getEpochSecond()) / tickS;
    }

    void tick(long tick, CupwardenPolicy policy) {
      for (int day = 0; day < DAYS_OUT; day++) {
        if (tick == leaves[day]) {
          carryOut(day);
        }
        if (day >= FIRST_RAIN && tick == (leaves[day] + returns[day]) / 2) {
          rain();
        }
        for (int cup = 0; cup < CARRIED; cup++) {
          long back = returnsAt(day, cup);
          if (tick == back) {
            backG[cup] = scene.cup(cup).grossG() - leftG[cup];
          }
          if (tick == back + 3600 / tickS && stand.present(cup, tick)) {
            CupStatus status = policy.standing().statuses().get(cup);
            double beyondG = status.massG() - scene.cup(cup).grossG();
            backs.add(new Back(status.cup(), day, backG[cup], beyondG, status.trusted()));
          }
        }
      }
    }

    private long returnsAt(int day, int cup) {
      boolean forgotten = cup == 0 && day == FORGOTTEN_ON;
      return forgotten ? returns[day] + ticksADay / 2 : returns[day];
    }

    private void carryOut(int day) {
      for (int cup = 0; cup < CARRIED; cup++) {
        if (stand.present(cup, leaves[day])) {
          leftG[cup] = scene.cup(cup).grossG();
          stand.takeAway(cup, returnsAt(day, cup));
        }
      }
    }

    private void rain() {
      double mm = random.nextDouble(LEAST_RAIN_MM, MOST_RAIN_MM);
      for (int cup = 0; cup < CARRIED; cup += 2) {
        double topCm = scene.bench().vessels().get("half-litre").topMm() / 10.0;
        scene.cup(cup).give(mm * MM_TO_ML_PER_CM2 * Math.PI * topCm * topCm / 4.0, 0);
      }
    }
  }
}
