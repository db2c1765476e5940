package dev.cupwarden.simulator.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.limits.AllowedPass;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.tick.Tick;
import dev.cupwarden.simulator.faults.FaultLevel;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A person with a kitchen scale who weighs every cup at half past six in the evening, not at
 * weekends, and gives what the program lists, each pass with its soak.
 */
class DailyWeighingTest {
  private static final LocalTime AFTER_WORK = LocalTime.of(18, 30);
  private static final int CUPS = 12;
  private static final int DAYS = 90;

  /** Past the dry line by no more than a scale and a forecast are sure of. */
  private static final double SURE = 0.02;

  private final List<String> past = new ArrayList<>();
  private int weighings;
  private int passes;

  @ParameterizedTest
  @CsvSource({"FIRST, 8801", "SECOND, 8801"})
  void noCupIsPastItsDryLineUnlessItUsesItsWholeRoomMeanwhile(World world, long seed)
      throws SetupException {
    Rehearsal winter = new Rehearsal(UsualBench.of(CUPS), DAYS, FaultLevel.NONE, 0).in(world);
    winter.run((scene, stand, unused) -> new Evenings(scene), seed, day -> {});
    assertTrue(weighings > 50, weighings + " weighings");
    assertTrue(passes > 100, passes + " passes");
    assertEquals(List.of(), past);
  }

  /** Carries out what a tick of the usual kind lists. */
  private final class Evenings implements Policy {
    private final Scene scene;
    private final Tick tick;
    private final List<JsonNode> orders = new ArrayList<>();
    private final List<AllowedPass> left = new ArrayList<>();
    private final Instant[] lastPass;
    private final double[] leastSince;
    private final boolean[] told;
    private BenchState state;

    Evenings(Scene scene) throws SetupException {
      this.scene = scene;
      this.tick = new Tick(scene.bench(), Tick.Rounds.DAILY);
      this.state = tick.fresh();
      this.lastPass = new Instant[scene.count()];
      this.leastSince = new double[scene.count()];
      this.told = new boolean[scene.count()];
    }

    @Override
    public Decision decide(RehearsalReadings readings) {
      orders.addAll(readings.orders());
      ZonedDateTime local = readings.at().atZone(scene.zone());
      boolean weekend = local.getDayOfWeek().getValue() >= DayOfWeek.SATURDAY.getValue();
      if (local.toLocalTime().equals(AFTER_WORK) && !weekend) {
        weigh(readings);
      }
      watch(readings);
      return Decision.watering(next(readings.at()));
    }

    private void weigh(RehearsalReadings readings) {
      weighings++;
      left.clear();
      Tick.Step step = tick.step(state, observed(readings));
      state = step.state();
      orders.clear();
      left.addAll(step.passes());
      passes += left.size();
      Arrays.fill(leastSince, Double.POSITIVE_INFINITY);
      Arrays.fill(told, false);
    }

    private void watch(RehearsalReadings readings) {
      for (int cup = 0; cup < scene.count(); cup++) {
        if (weighings < 5 || !readings.onBench()[cup]) {
          continue;
        }
        double now = scene.cup(cup).depletion();
        leastSince[cup] = Math.min(leastSince[cup], now);
        var lines = scene.lines(cup, readings.stageSaid()[cup]);
        boolean ownFault = now - leastSince[cup] >= lines.dry() - lines.refill() - SURE;
        if (now > lines.dry() + SURE && !ownFault && !told[cup]) {
          told[cup] = true;
          past.add(
              "%s %s %.2f > %.2f from %.2f"
                  .formatted(
                      readings.at(), scene.names().get(cup), now, lines.dry(), leastSince[cup]));
        }
      }
    }

    /** Of the list, in its order, what has soaked long enough. */
    private List<Watering> next(Instant at) {
      List<Watering> given = new ArrayList<>();
      for (AllowedPass pass : List.copyOf(left)) {
        int cup = Collections.binarySearch(scene.names(), pass.cup());
        Instant last = lastPass[cup];
        if (last == null || !at.isBefore(last.plus(scene.bench().watering().soak()))) {
          left.remove(pass);
          lastPass[cup] = at;
          given.add(new Watering(cup, pass.plainMl(), pass.feedMl(), pass.strength(), pass.why()));
        }
      }
      return given;
    }

    private Observation observed(RehearsalReadings readings) {
      SortedMap<String, Double> massG = new TreeMap<>();
      for (int cup = 0; cup < scene.count(); cup++) {
        if (!Double.isNaN(readings.massG()[cup])) {
          massG.put(scene.names().get(cup), readings.massG()[cup]);
        }
      }
      return new Observation(
          readings.at(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          OptionalDouble.empty(),
          massG,
          Collections.emptySortedMap(),
          Collections.emptySortedMap(),
          false,
          false,
          false,
          List.copyOf(orders));
    }
  }
}
