package dev.cupwarden.app.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.core.BenchState;
import dev.cupwarden.core.Tick;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.setup.Bench;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class KeptStateTest {
  private static final Instant START = Instant.parse("2027-01-10T08:00:00Z");
  private static final int TICKS = 600;

  /** Two days of cups that dry, are watered and lifted, on scales of which one falls silent. */
  private static List<BenchState> states() throws Exception {
    Bench bench = BackRoom.bench();
    Tick tick = new Tick(bench);
    SplittableRandom random = new SplittableRandom(5);
    TreeMap<String, Double> massG = new TreeMap<>();
    bench.cups().keySet().forEach(cup -> massG.put(cup, 300 + random.nextDouble()));
    List<BenchState> states = new ArrayList<>();
    BenchState state = tick.fresh();
    for (int i = 0; i < TICKS; i++) {
      massG.replaceAll((cup, g) -> g - 0.1 + 0.02 * random.nextGaussian());
      massG.replaceAll((cup, g) -> random.nextInt(200) == 0 ? g + 30 : g);
      TreeMap<String, Double> shown = new TreeMap<>(massG);
      shown.replaceAll((cup, g) -> random.nextInt(300) == 0 ? 0.0 : g);
      if (i > TICKS / 2) {
        shown.remove(shown.firstKey());
      }
      Tick.Step step =
          tick.step(
              state,
              new Observation(
                  START.plusSeconds(300L * i),
                  OptionalDouble.of(19.5),
                  OptionalDouble.of(60),
                  OptionalDouble.of(20),
                  OptionalDouble.empty(),
                  shown,
                  new TreeMap<>(),
                  new TreeMap<>(),
                  false,
                  List.of()));
      state = step.state();
      step.passes().forEach(pass -> massG.merge(pass.cup(), pass.totalMl(), Double::sum));
      states.add(state);
    }
    return states;
  }

  @Test
  void whatIsReadIsWhatWasKept() throws Exception {
    for (BenchState state : states()) {
      assertEquals(state, KeptState.read(KeptState.written(state)));
    }
  }

  @Test
  void theJsonOfAnOlderProgramIsTakenUp() throws Exception {
    BenchState state = states().get(TICKS - 1);
    byte[] older = KeptState.json(state).getBytes(StandardCharsets.UTF_8);
    assertEquals(state, KeptState.read(older));
    assertTrue(3 * KeptState.written(state).length < 2 * older.length, "hardly smaller than JSON");
  }

  @Test
  void aStateCutShortIsTold() throws Exception {
    byte[] kept = KeptState.written(states().get(TICKS - 1));
    for (int length = 0; length < kept.length; length += 97) {
      byte[] part = Arrays.copyOf(kept, length);
      assertThrows(JournalException.class, () -> KeptState.read(part), "cut at " + length);
    }
  }
}
