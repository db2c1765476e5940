package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.dosing.LeakWatch.Stage;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/**
 * Whatever happens to a bench: while something stops the pump for every cup, an alert of the whole
 * bench stands, and what it puts out all the same is what its stage allows.
 */
class NoSilentBenchPropertiesTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private final Set<Stage> stages = EnumSet.noneOf(Stage.class);

  @Property(tries = 40)
  void whatStopsTheWholeBenchIsTold(@ForAll long seed) {
    Random random = new Random(seed);
    Story story =
        new Story(Story.BENCH + "tray: 1 L\n", "2027-02-14T06:00:00Z", Tick.Rounds.ONE_A_TICK)
            .with("A1", 180 + 100 * random.nextDouble())
            .with("A2", 100 + 60 * random.nextDouble());
    story.rateGPerH.put("A1", 1 + 4 * random.nextDouble());
    story.rateGPerH.put("A2", 0.5 + 2 * random.nextDouble());
    story.tankMl.put("plain", 11_000.0);
    for (int tick = 0; tick < 600; tick++) {
      story.wait(TICK);
      disturb(story, random);
      step(story, random.nextInt(300) == 0 ? new String[] {clear(tick)} : new String[0]);
    }
  }

  private void step(Story story, String... orders) {
    Tick.Step step = story.step(orders);
    Stage stage = story.state.pump().watch().leak().stage();
    stages.add(stage);
    String told = story.at + " " + stage + " " + story.state.pump().latch();
    if (stage != Stage.SOUND) {
      assertTrue(story.state.alerts().containsKey("leak"), told);
      assertTrue(step.passes().size() <= (stage == Stage.RESCUE ? 1 : 0), told);
      assertTrue(step.passes().stream().allMatch(pass -> pass.why().equals("rescue")), told);
      assertTrue(story.state.pump().watch().leak().givenMl() <= 500.0, told);
    }
    if (story.state.pump().latch() != null) {
      assertTrue(story.state.alerts().containsKey(story.state.pump().latch().code().word()), told);
      assertTrue(step.passes().size() <= 1, told);
    }
  }

  private static void disturb(Story story, Random random) {
    boolean watched = story.state.pump().watch().leak().watching(story.at);
    if (random.nextInt(watched ? 3 : story.leak ? 20 : 200) == 0) {
      story.leak = !story.leak;
    }
    if (random.nextInt(story.leakUnread ? 10 : 400) == 0) {
      story.leakUnread = !story.leakUnread;
    }
    if (random.nextInt(300) == 0) {
      story.tankMl.merge("plain", -2_000 * random.nextDouble(), (ml, by) -> Math.max(0, ml + by));
    }
    if (random.nextInt(100) == 0) {
      double part = random.nextBoolean() ? 0.0 : 1.0;
      List.of("A1", "A2").forEach(cup -> story.arrives.put(cup, part));
    }
    if (random.nextInt(150) == 0) {
      story.massG.merge(random.nextBoolean() ? "A1" : "A2", 25.0, Double::sum);
    }
  }

  private static String clear(int tick) {
    return "{\"id\":\"c%d\",\"kind\":\"clear\"}".formatted(tick);
  }

  /** The property is of no use if its benches never come there. */
  @Example
  void everyStageIsComeTo() {
    for (long seed = 0; seed < 20; seed++) {
      whatStopsTheWholeBenchIsTold(seed);
    }
    assertTrue(stages.equals(EnumSet.allOf(Stage.class)), "only " + stages);
  }
}
