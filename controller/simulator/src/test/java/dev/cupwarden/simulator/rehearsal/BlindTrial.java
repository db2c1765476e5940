package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.setup.StageLines;
import dev.cupwarden.core.setup.Vessel;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.physics.RoomAir;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Room;
import dev.cupwarden.simulator.world.TrueCup;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * One bench of cups of every stage, four vessels and three mixes in one climate. After weeks in
 * which a person says what the roots look like, the scales of some cups fall silent for three
 * weeks.
 *
 * @param world whose cups, air and scales these are
 * @param climate of the room; the second world's rooms differ by themselves
 * @param seed of the cups' truth, of the weather and of pump and scales
 * @param learningDays before the scales die
 * @param deadDays until they speak again
 */
record BlindTrial(World world, Climate climate, long seed, int learningDays, int deadDays) {
  private static final int CUPS = 24;
  static final int BLIND_DAYS = 21;

  private static final List<Vessel> VESSELS =
      List.of(
          new Vessel("tall", 92, 60, 112, 13),
          new Vessel("short", 80, 55, 78, 9),
          new Vessel("half-litre", 95, 65, 110, 14),
          new Vessel("two-decilitre", 70, 48, 82, 7));

  /** From a cool room to a warm and dry one in the sun. */
  static final List<Climate> CLIMATES =
      List.of(
          new Climate("usual", 0, 0, 1, LocalDate.of(2026, 11, 15)),
          new Climate("warm-dry", 5, -10, 1.3, LocalDate.of(2026, 12, 15)),
          new Climate("cool", -3, 8, 0.8, LocalDate.of(2026, 11, 15)),
          new Climate("spring", 1, 0, 1.5, LocalDate.of(2027, 2, 20)));

  /**
   * How a room differs from the usual one.
   *
   * @param warmerC air and roots
   * @param moisterPct relative humidity, points
   * @param light times the usual
   * @param struck day of the start
   */
  record Climate(String name, double warmerC, double moisterPct, double light, LocalDate struck) {
    RoomAir of(Air air) {
      return RoomAir.of(
          air.airC() + warmerC,
          Math.max(15, Math.min(95, air.rhPct() + moisterPct)),
          air.rootC() + warmerC,
          air.lightUmolPerM2S() * light);
    }
  }

  /**
   * A cup that nobody weighed, day by day.
   *
   * @param stage as last said
   * @param lines of that stage
   * @param used what it used, as a part of its available water, by day; first the day before
   * @param pastDry most that it was past its dry line, by day
   * @param wetH longest unbroken time past its wet line, by day
   * @param told codes of the alerts of it that were raised once its scale spoke again
   */
  record Blind(
      String name,
      String climate,
      RootStage stage,
      StageLines lines,
      double[] used,
      double[] pastDry,
      double[] wetH,
      Set<String> told) {
    double mostPastDry(int days) {
      return most(pastDry, days);
    }

    double longestWetH(int days) {
      return most(wetH, days);
    }

    private static double most(double[] byDay, int days) {
      double most = byDay[0];
      for (int day = 1; day < days; day++) {
        most = Math.max(most, byDay[day]);
      }
      return most;
    }

    @Override
    public String toString() {
      return String.format(
          Locale.ROOT,
          "%s %s in the %s room, using %.2f of its water a day: past dry %.3f in 7 d, %.3f in 14 d",
          stage.word(),
          name,
          climate,
          used[0],
          mostPastDry(7),
          mostPastDry(14));
    }
  }

  /** Worst and 95 % of how far past their dry lines, and longest past a wet one. */
  static String row(String what, List<Blind> cups) {
    StringBuilder row = new StringBuilder(String.format("%-16s %4d", what, cups.size()));
    for (int days : new int[] {7, 14, 21}) {
      double[] past = cups.stream().mapToDouble(cup -> cup.mostPastDry(days)).sorted().toArray();
      double wetH = cups.stream().mapToDouble(cup -> cup.longestWetH(days)).max().orElse(0);
      row.append(
          String.format(
              Locale.ROOT,
              " | %2d d: %6.3f %6.3f %3.0f h",
              days,
              past[past.length - 1],
              past[(int) (0.95 * (past.length - 1))],
              wetH));
    }
    return row.toString();
  }

  private Bench bench() {
    Bench usual = UsualBench.of(CUPS);
    List<String> mixes = List.copyOf(usual.mixes().keySet());
    int turn = (int) (seed % 12);
    SortedMap<String, Cup> cups = new TreeMap<>();
    for (Cup cup : usual.cups().values()) {
      int i = cups.size();
      cups.put(
          cup.name(),
          new Cup(
              cup.name(),
              VESSELS.get((i + turn) % 4).name(),
              mixes.get((i / 4 + turn) % 3),
              cup.plant(),
              Optional.of(climate.struck()),
              RootStage.values()[(i * 7 / 3 + i + turn) % 4],
              cup.cuttingG(),
              Optional.empty(),
              Cup.Wiring.NONE));
    }
    return UsualBench.of(cups, VESSELS);
  }

  /** Every so many cups go blind; those that live and are well are told of. */
  List<Blind> run(int every) throws SetupException {
    SplittableRandom seeds = new SplittableRandom(seed);
    Bench bench = bench();
    Place place = bench.place().orElseThrow();
    Instant start = climate.struck().atTime(LocalTime.of(20, 0)).atZone(place.zone()).toInstant();
    int days = learningDays + BLIND_DAYS;
    Scene scene = new Scene(bench, world, seeds.nextLong());
    Room room = world.room(place, start, days, seeds.nextLong());
    Stand stand = new Stand(scene, world, FaultLevel.NONE, days, seeds.nextLong());
    Policy policy = new CupwardenPolicy(bench, scene.names());
    long tickS = bench.tick().toSeconds();
    long ticksADay = 86_400 / tickS;
    Watch watch = new Watch(scene, stand, every, climate.name());
    for (long tick = 0; tick < days * ticksADay; tick++) {
      long now = tick;
      Instant at = start.plusSeconds(tick * tickS);
      Air air = world == World.FIRST ? climate.of(room.at(at)) : room.at(at);
      stand.reach(tick);
      int day = (int) (tick / ticksADay);
      boolean newDay = tick % ticksADay == 0;
      List<JsonNode> orders = newDay && day < learningDays ? sightings(scene, stand) : List.of();
      if (newDay) {
        fill(stand.tanks());
        watch.dayBegins(day, learningDays, deadDays);
      }
      double[] shownG = watch.unseen(stand.weigh(tick, air));
      RehearsalReadings readings =
          new RehearsalReadings(
              at,
              room.shown(air),
              shownG,
              leftMl(stand.tanks()),
              stand.said(),
              stand.onBench(),
              orders,
              false,
              false);
      Policy.Decision decision = policy.decide(readings);
      decision.waterings().forEach(pass -> stand.deliver(pass, now));
      watch.hear(day - learningDays - deadDays, decision.alerts());
      scene.cups().forEach(cup -> cup.advance((double) tickS, air));
      watch.look(day - learningDays, tickS / 3600.0);
    }
    return watch.blind();
  }

  private static void fill(Tanks tanks) {
    for (int tank = 0; tank < tanks.count(); tank++) {
      tanks.fill(tank);
    }
  }

  private static double[] leftMl(Tanks tanks) {
    double[] ml = new double[tanks.count()];
    for (int tank = 0; tank < ml.length; tank++) {
      ml[tank] = Math.rint(tanks.leftMl(tank));
    }
    return ml;
  }

  /** What a person says who looks every day. */
  private static List<JsonNode> sightings(Scene scene, Stand stand) {
    List<JsonNode> orders = new ArrayList<>();
    for (int cup = 0; cup < scene.count(); cup++) {
      RootStage seen = scene.cup(cup).stage();
      if (seen != stand.said()[cup]) {
        stand.said()[cup] = seen;
        orders.add(
            JsonNodeFactory.instance
                .objectNode()
                .put("id", scene.names().get(cup) + "-" + seen.word())
                .put("kind", "stage")
                .put("cup", scene.names().get(cup))
                .put("stage", seen.word()));
      }
    }
    return orders;
  }

  /** What becomes of the cups that nobody weighs. */
  private static final class Watch {
    private final Scene scene;
    private final Stand stand;
    private final int every;
    private final String climate;
    private final double[] lostMl;
    private final double[] wetH;
    private final Blind[] blind;
    private boolean dark;

    Watch(Scene scene, Stand stand, int every, String climate) {
      this.scene = scene;
      this.stand = stand;
      this.every = every;
      this.climate = climate;
      this.lostMl = new double[scene.count()];
      this.wetH = new double[scene.count()];
      this.blind = new Blind[scene.count()];
    }

    private static double lostMl(TrueCup cup) {
      return cup.balance().waterOutMl() - cup.trayMl();
    }

    /** What the day before used is noted, from the day on which the scales die. */
    void dayBegins(int day, int learningDays, int deadDays) {
      dark = day >= learningDays && day < learningDays + deadDays;
      for (int cup = every - 1; cup < scene.count(); cup += every) {
        TrueCup truth = scene.cup(cup);
        if (day == learningDays && truth.alive() && truth.rot() < 0.1) {
          RootStage said = stand.said()[cup];
          blind[cup] =
              new Blind(
                  scene.names().get(cup),
                  climate,
                  said,
                  scene.lines(cup, said),
                  new double[BLIND_DAYS],
                  new double[BLIND_DAYS],
                  new double[BLIND_DAYS],
                  new TreeSet<>());
        }
        if (blind[cup] != null) {
          blind[cup].used()[day - learningDays] =
              (lostMl(truth) - lostMl[cup]) / truth.availableMl();
        }
        lostMl[cup] = lostMl(truth);
      }
    }

    double[] unseen(double[] shownG) {
      double[] seen = shownG.clone();
      for (int cup = every - 1; dark && cup < seen.length; cup += every) {
        seen[cup] = Double.NaN;
      }
      return seen;
    }

    void look(int day, double hours) {
      for (int cup = 0; day >= 0 && cup < blind.length; cup++) {
        if (blind[cup] == null) {
          continue;
        }
        TrueCup truth = scene.cup(cup);
        boolean wet = truth.airFraction() < scene.mix(cup).leastAir();
        wetH[cup] = wet ? wetH[cup] + hours : 0;
        double past = truth.depletion() - blind[cup].lines().dry();
        double[] byDay = blind[cup].pastDry();
        byDay[day] = byDay[day] == 0 ? past : Math.max(byDay[day], past);
        blind[cup].wetH()[day] = Math.max(blind[cup].wetH()[day], wetH[cup]);
      }
    }

    /**
     * What is raised of them once they are weighed again. That a cup whose capacity nobody learned
     * is to be weighed is no word on how it was reckoned.
     */
    void hear(int healedDays, List<AlertNotice> alerts) {
      for (AlertNotice alert : alerts) {
        for (Blind cup : blind) {
          if (healedDays >= 0
              && cup != null
              && cup.name().equals(alert.cup())
              && alert.state().equals("raised")
              && !alert.whatToDo().contains("nobody has learned")) {
            cup.told().add(alert.code());
          }
        }
      }
    }

    List<Blind> blind() {
      List<Blind> all = new ArrayList<>();
      for (Blind cup : blind) {
        if (cup != null) {
          all.add(cup);
        }
      }
      return all;
    }
  }
}
