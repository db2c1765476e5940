package dev.cupwarden.simulator.rehearsal;

import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Place;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.simulator.faults.FaultLevel;
import dev.cupwarden.simulator.grower.Grower;
import dev.cupwarden.simulator.world.Air;
import dev.cupwarden.simulator.world.Person;
import dev.cupwarden.simulator.world.Room;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.IntConsumer;

/**
 * One bench, one policy, so many days, in virtual time: person, readings, decision, water, and the
 * cups for one tick; then again.
 *
 * @param bench the bench as entered; the truth of its cups is drawn from the seed
 * @param days how long
 * @param faults how much goes wrong
 * @param tripDays how long the person is on a journey
 * @param world the physics, plants, room, scales and person
 */
public record Rehearsal(Bench bench, int days, FaultLevel faults, int tripDays, World world) {
  private static final LocalDate USUAL_START = LocalDate.of(2026, 11, 15);
  private static final Place USUAL_PLACE = new Place(50, 0, ZoneOffset.UTC);

  /** In the first world. */
  public Rehearsal(Bench bench, int days, FaultLevel faults, int tripDays) {
    this(bench, days, faults, tripDays, World.FIRST);
  }

  /** The same winter in another world. */
  public Rehearsal in(World other) {
    return new Rehearsal(bench, days, faults, tripDays, other);
  }

  /** With the usual journey, in the first world. */
  public Rehearsal(Bench bench, int days, FaultLevel faults) {
    this(bench, days, faults, Grower.USUAL_TRIP_DAYS);
  }

  /**
   * How it went.
   *
   * @param broken each broken limit in words, in order of time
   */
  public record Outcome(Figures figures, List<String> broken) {}

  /** The evening of the day on which the last cutting was struck. */
  Instant start() {
    LocalDate day =
        bench.cups().values().stream()
            .map(cup -> cup.struck())
            .flatMap(Optional::stream)
            .max(LocalDate::compareTo)
            .orElse(USUAL_START);
    return day.atTime(LocalTime.of(20, 0))
        .atZone(bench.place().orElse(USUAL_PLACE).zone())
        .toInstant();
  }

  /**
   * Runs it; {@code dayDone} hears of every day that is over.
   *
   * @throws SetupException where the controller refuses the bench
   */
  public Outcome run(PolicyKind kind, long seed, IntConsumer dayDone) throws SetupException {
    return run(kind::make, seed, dayDone);
  }

  /** Makes a policy for a scene. */
  interface PolicyMaker {
    /**
     * @param seed for a policy that draws
     * @throws SetupException where it refuses the bench
     */
    Policy make(Scene scene, Stand stand, long seed) throws SetupException;
  }

  Outcome run(PolicyMaker maker, long seed, IntConsumer dayDone) throws SetupException {
    SplittableRandom seeds = new SplittableRandom(seed);
    Instant start = start();
    Scene scene = new Scene(bench, world, seeds.nextLong());
    Room room = world.room(bench.place().orElse(USUAL_PLACE), start, days, seeds.nextLong());
    Stand stand = new Stand(scene, world, faults, days, seeds.nextLong());
    Person grower = world.person(faults, scene.zone(), start, days, tripDays, seeds.nextLong());
    AlertJudge alerts = new AlertJudge(scene, stand);
    PersonAtBench person = new PersonAtBench(scene, stand, grower, alerts, start);
    Policy policy = maker.make(scene, stand, seeds.nextLong());
    Referee referee = new Referee(scene, start);
    Tally tally = new Tally(scene, stand);
    long tickS = bench.tick().toSeconds();
    long ticksADay = 86_400 / tickS;
    double[] tankMl = new double[stand.tanks().count()];
    for (long tick = 0; tick * tickS < days * 86_400L; tick++) {
      Instant at = start.plusSeconds(tick * tickS);
      Air air = room.at(at);
      stand.reach(tick);
      boolean looks = person.tick(at, tick);
      for (int i = 0; i < tankMl.length; i++) {
        tankMl[i] = Math.rint(stand.tanks().leftMl(i));
      }
      RehearsalReadings readings =
          new RehearsalReadings(
              at,
              room.shown(air),
              stand.weigh(tick, air),
              tankMl,
              stand.said(),
              stand.onBench(),
              person.orders(),
              looks,
              looks && person.leaves(at));
      referee.see(readings);
      Policy.Decision decision = policy.decide(readings);
      for (Watering pass : decision.waterings()) {
        if (!pass.toWaste()) {
          referee.judge(pass, readings);
        }
        stand.deliver(pass, tick);
        tally.pass();
      }
      scene.cups().forEach(cup -> cup.advance((double) tickS, air));
      tally.tick();
      alerts.tick(decision.alerts(), tick, air.rootC());
      if ((tick + 1) % ticksADay == 0) {
        dayDone.accept((int) ((tick + 1) / ticksADay));
      }
    }
    return new Outcome(tally.figures(referee, alerts), List.copyOf(referee.broken()));
  }
}
