package dev.cupwarden.simulator.rehearsal;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.plants.Plant;
import dev.cupwarden.core.plants.PlantSources;
import dev.cupwarden.core.plants.PlantTable;
import dev.cupwarden.core.plants.RootingTime;
import dev.cupwarden.core.plants.Span;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.Cup;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.setup.RootingRules;
import dev.cupwarden.core.setup.SetupException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * On which days roots are foretold, held against the days on which they truly come. A person looks
 * at every cup once a week and says what there is; then the controller is asked. No world knows
 * kinds of plants, so the bench has a table of its own: what its grower saw in the winter before
 * ({@link #seenBefore}).
 */
public final class RootingTrial implements Policy {
  private static final int LOOKS_EVERY_DAYS = 7;

  /** The warmth that the grower's table is written for, and the base that is usually taken. */
  private static final double AT_C = 20.0;

  private static final Span WANTED_C = new Span(18.0, 22.0);

  private final CupwardenPolicy asked;
  private final Scene scene;
  private final Stand stand;
  private final RootingScore score;
  private final RootingTime clock = new RootingTime(new Span(1.0, 1.0), AT_C, USUAL_BASE_C);
  private final double[] daysSoFar;
  private final RootStage[] truth;
  private final RootStage[] told;
  private final List<Question> open = new ArrayList<>();
  private long tick;
  private int orders;

  private static final double USUAL_BASE_C = RootingTime.USUAL_BASE_C;

  private RootingTrial(Scene scene, Stand stand, RootingScore score) throws SetupException {
    this.asked = new CupwardenPolicy(scene.bench(), scene.names());
    this.scene = scene;
    this.stand = stand;
    this.score = score;
    this.daysSoFar = new double[scene.count()];
    this.truth = new RootStage[scene.count()];
    this.told = new RootStage[scene.count()];
    for (int cup = 0; cup < scene.count(); cup++) {
      truth[cup] = scene.cup(cup).stage();
      told[cup] = truth[cup];
    }
  }

  private record Question(int cup, RootStage of, CupStatus.LikelyDay foretold) {}

  /**
   * One rehearsal.
   *
   * @throws SetupException where the controller refuses the bench
   */
  public static RootingScore run(Rehearsal of, long seed) throws SetupException {
    RootingScore score = new RootingScore();
    of.run((scene, stand, drawn) -> new RootingTrial(scene, stand, score), seed, day -> {});
    return score;
  }

  /**
   * The same bench with what its grower wrote down of every plant after those winters.
   *
   * @throws SetupException where the controller refuses the bench
   */
  public static Rehearsal seenBefore(Rehearsal of, long firstSeed, int winters)
      throws SetupException {
    RootingScore before = new RootingScore();
    for (int i = 0; i < winters; i++) {
      before.add(run(of, firstSeed + i));
    }
    RootingTime time =
        new RootingTime(
            new Span(before.daysToWhite(0.05), before.daysToWhite(0.95)), AT_C, USUAL_BASE_C);
    SortedMap<String, Plant> plants = new TreeMap<>();
    for (Cup cup : of.bench().cups().values()) {
      plants.put(
          cup.plant(),
          new Plant(cup.plant(), List.of(), 0.0, WANTED_C, time, false, PlantSources.BENCH_FILE));
    }
    return new Rehearsal(
        with(of.bench(), new PlantTable(plants)),
        of.days(),
        of.faults(),
        of.tripDays(),
        of.world());
  }

  private static Bench with(Bench bench, PlantTable plants) {
    return new Bench(
        bench.name(),
        bench.place(),
        bench.watering(),
        bench.tick(),
        bench.feeding(),
        new RootingRules(bench.rooting().lines(), plants),
        bench.climate(),
        bench.mixes(),
        bench.vessels(),
        bench.feeds(),
        bench.water(),
        bench.tanks(),
        bench.cups(),
        bench.board(),
        bench.trayMl(),
        bench.hose());
  }

  @Override
  public Decision decide(RehearsalReadings readings) {
    long ticksADay = 86_400L / scene.bench().tick().toSeconds();
    boolean looks = tick > 0 && tick % (LOOKS_EVERY_DAYS * ticksADay) == 0;
    double worth = clock.worth(readings.air().rootC(), WANTED_C.most()) / ticksADay;
    LocalDate today = day(readings.at());
    for (int cup = 0; cup < scene.count(); cup++) {
      if (scene.cup(cup).stage() != truth[cup]) {
        comes(cup, today);
      }
      daysSoFar[cup] += worth;
    }
    Decision decision = asked.decide(looks ? readings.with(seen(readings)) : readings);
    if (looks) {
      ask();
    }
    tick++;
    return decision;
  }

  private LocalDate day(Instant at) {
    return at.atZone(scene.zone()).toLocalDate();
  }

  private void comes(int cup, LocalDate today) {
    RootStage now = scene.cup(cup).stage();
    if (truth[cup] == RootStage.STRUCK) {
      score.white(daysSoFar[cup]);
    }
    truth[cup] = now;
    for (Question question : open) {
      if (question.cup == cup && question.of.ordinal() <= now.ordinal()) {
        score.answered(question.of, question.foretold, today);
      }
    }
    open.removeIf(question -> question.cup == cup && question.of.ordinal() <= now.ordinal());
  }

  /** What a person who looks at every cup says. */
  private List<JsonNode> seen(RehearsalReadings readings) {
    List<JsonNode> all = new ArrayList<>(readings.orders());
    for (int cup = 0; cup < scene.count(); cup++) {
      if (inItsPlace(cup)) {
        told[cup] = truth[cup];
        stand.said()[cup] = truth[cup];
        all.add(
            JsonNodeFactory.instance
                .objectNode()
                .put("id", "look-" + orders++)
                .put("kind", "stage")
                .put("cup", scene.names().get(cup))
                .put("stage", truth[cup].word()));
      }
    }
    return all;
  }

  private void ask() {
    for (CupStatus status : asked.standing().statuses()) {
      int cup = scene.names().indexOf(status.cup());
      if (status.rooting() == null || !inItsPlace(cup)) {
        continue;
      }
      if (status.rooting().white() != null) {
        open.add(new Question(cup, RootStage.WHITE, status.rooting().white()));
      }
      open.add(new Question(cup, RootStage.TOUGHENED, status.rooting().toughened()));
    }
  }

  private boolean inItsPlace(int cup) {
    return stand.cupOn(cup) == cup && stand.placeOf(cup) == cup && scene.cup(cup).alive();
  }
}
