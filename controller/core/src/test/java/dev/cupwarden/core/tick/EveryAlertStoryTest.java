package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import dev.cupwarden.core.alerts.AlertCode;
import java.time.Duration;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Each alert of the list is raised by the tick, or is one that only a host tells of itself. */
class EveryAlertStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  /**
   * Raised by the host, and by what of it. A pump that runs on the tick also tells of, from the
   * climb of two cups; no story here reaches that: steps of the raw weight are told of as a valve
   * first.
   */
  private static final Map<AlertCode, String> OF_THE_HOST =
      Map.of(
          AlertCode.PUMP_RUNNING_ON, "BoardFaults",
          AlertCode.BOARD_FAULT, "BoardFaults",
          AlertCode.CLOCK, "ClockWatch",
          AlertCode.NOTICES_FAILING, "FailingNotices",
          AlertCode.STORE_FULL, "StoreWatch",
          AlertCode.CONTROLLER_SILENT, "SilenceWatch",
          AlertCode.INPUT_SET_ASIDE, "InputWatch",
          AlertCode.TWO_CONTROLLERS, "DuplicateNameWatch");

  private static final Map<AlertCode, Supplier<Story>> STORIES =
      Map.ofEntries(
          Map.entry(AlertCode.WET_TOO_LONG, () -> drying("A2", 255.0, 0.02, 49)),
          Map.entry(AlertCode.STAYING_WET, () -> drying("A2", 255.0, 0.02, 25)),
          Map.entry(AlertCode.ROT_WEATHER, EveryAlertStoryTest::littleAir),
          Map.entry(AlertCode.MOULD_WEATHER, EveryAlertStoryTest::humid),
          Map.entry(AlertCode.LIFT_COVER, EveryAlertStoryTest::covered),
          Map.entry(AlertCode.NEAR_DRY, EveryAlertStoryTest::heldPastDry),
          Map.entry(AlertCode.LOOK_AT_ROOTS, EveryAlertStoryTest::useGrows),
          Map.entry(AlertCode.SCALE_STUCK, EveryAlertStoryTest::stuck),
          Map.entry(AlertCode.SCALE_NOISY, EveryAlertStoryTest::noisy),
          Map.entry(AlertCode.SCALE_OUT_OF_RANGE, () -> then(8388.6, 1)),
          Map.entry(AlertCode.SCALE_SILENT, () -> silent(2)),
          Map.entry(AlertCode.BLIND_RATION, () -> silent(7)),
          Map.entry(AlertCode.SCALE_DRIFTING, EveryAlertStoryTest::drifting),
          Map.entry(AlertCode.CUP_AWAY, () -> then(0.0, 7)),
          Map.entry(AlertCode.CUPS_SWAPPED, EveryAlertStoryTest::swapped),
          Map.entry(AlertCode.DOSE_SHORT, () -> arriving(0.0)),
          Map.entry(AlertCode.DOSE_OVER, () -> arriving(1.5)),
          Map.entry(AlertCode.SHEDS_WATER, () -> arriving(0.4)),
          Map.entry(AlertCode.TRAY_FULL, EveryAlertStoryTest::runsThrough),
          Map.entry(AlertCode.VALVE_LEAKING, () -> drying("A1", 350.0, -1.0, 5)),
          Map.entry(AlertCode.SENSOR_DEAD, EveryAlertStoryTest::deadSensor),
          Map.entry(AlertCode.TANK_UNSUITED, () -> onFeedAlone(0.25)),
          Map.entry(AlertCode.FEED_CHANGE, EveryAlertStoryTest::otherFeedInAWeek),
          Map.entry(AlertCode.TANK_EMPTY, () -> onFeedAlone(0.8)),
          Map.entry(AlertCode.TANK_LOW, EveryAlertStoryTest::lowTank),
          Map.entry(AlertCode.FEED_OLD, EveryAlertStoryTest::oldFeed),
          Map.entry(AlertCode.LEAK, EveryAlertStoryTest::spill),
          Map.entry(AlertCode.COLD, () -> roots(11.9)),
          Map.entry(AlertCode.FROST, () -> roots(2.9)),
          Map.entry(AlertCode.HEAT, () -> roots(30.1)),
          Map.entry(AlertCode.SALTS_HIGH, EveryAlertStoryTest::salty),
          Map.entry(AlertCode.POT_ON, EveryAlertStoryTest::potBound),
          Map.entry(AlertCode.POT_BOUND, EveryAlertStoryTest::circlingForWeeks),
          Map.entry(AlertCode.SHADE_LEAVES, EveryAlertStoryTest::leavesBeforeRoots),
          Map.entry(AlertCode.LEAF_DROP, EveryAlertStoryTest::stoodDry),
          Map.entry(AlertCode.TOP_WET, () -> drying("A1", 400.0, 0.15, 121)),
          Map.entry(AlertCode.STOP_HEAT, EveryAlertStoryTest::stillHeated),
          Map.entry(AlertCode.HARDEN_OFF, EveryAlertStoryTest::saidToBeOut),
          Map.entry(AlertCode.KEEP_IN, EveryAlertStoryTest::outInTheCold),
          Map.entry(AlertCode.LITTLE_LIGHT, EveryAlertStoryTest::dim),
          Map.entry(AlertCode.PUMP_DRIFT, () -> wornPump(0.9)),
          Map.entry(AlertCode.WATCH_ONLY, EveryAlertStoryTest::onlyWatched),
          Map.entry(AlertCode.WEIGH_DRAINED, () -> drying("A2", 220.0, 0.1, 24 * 28 + 1)));

  @Test
  void everyCodeOfTheListHasAStoryOrIsTheHosts() {
    Set<AlertCode> told = EnumSet.copyOf(STORIES.keySet());
    told.addAll(OF_THE_HOST.keySet());
    assertEquals(EnumSet.allOf(AlertCode.class), told);
    assertEquals(AlertCode.values().length, STORIES.size() + OF_THE_HOST.size(), "in one of both");
  }

  @TestFactory
  Stream<DynamicTest> raised() {
    return Arrays.stream(AlertCode.values())
        .filter(STORIES::containsKey)
        .map(
            code ->
                dynamicTest(
                    code.word(),
                    () -> {
                      Story story = STORIES.get(code).get();
                      assertTrue(story.raised(code.word()), () -> story.alerts.toString());
                    }));
  }

  /** Three cups that gain a part of what is ordered, for ten days. */
  static Story wornPump(double part) {
    Story story =
        onBench(
            Story.BENCH
                + "  A3: {vessel: tall, mix: coir-perlite, plant: vine, stage: white, cutting: 14 g}\n"
                + "  A4: {vessel: tall, mix: coir-perlite, plant: fig, stage: white, cutting: 14 g}\n");
    for (String cup : new String[] {"A1", "A3", "A4"}) {
      story.with(cup, 300.0).rateGPerH.put(cup, 3.0);
      story.arrives.put(cup, part);
    }
    story.look();
    story.run(Duration.ofDays(12));
    return story;
  }

  private static Story story() {
    return Story.from("2027-02-14T08:00:00Z");
  }

  private static Story onBench(String yaml) {
    return new Story(yaml, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
  }

  private static Story drying(String cup, double grossG, double gPerH, int hours) {
    Story story = story().with(cup, grossG);
    story.rateGPerH.put(cup, gPerH);
    story.look();
    story.run(Duration.ofHours(hours));
    return story;
  }

  /** A1 stands for an hour, and then its scale shows something else. */
  private static Story then(double showsG, int hours) {
    Story story = drying("A1", 350.0, 0.3, 1);
    story.with("A1", showsG).run(Duration.ofHours(hours));
    return story;
  }

  private static Story silent(int hours) {
    Story story = drying("A1", 350.0, 0.3, 1);
    story.massG.remove("A1");
    story.run(Duration.ofHours(hours));
    return story;
  }

  private static Story onlyWatched() {
    Story story = story().with("A1", 350.0);
    story.watchOnly = true;
    story.look();
    return story;
  }

  private static Story heldPastDry() {
    Story story = story().with("A2", 95.0);
    story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-16T08:00:00Z\"}");
    story.run(Duration.ofHours(1));
    return story;
  }

  /** Five cups use the same; A1's use then grows by four hundredths a day for a month. */
  private static Story useGrows() {
    TrueWater water = new TrueWater(5, 0.10, 0.6);
    water.run(Duration.ofDays(14));
    for (int day = 0; day < 30; day++) {
      water.rateGPerH.merge("A1", 1.04, (rate, by) -> rate * by);
      water.run(Duration.ofDays(1));
    }
    return water.story;
  }

  private static Story stuck() {
    TrueWater water = new TrueWater(2, 0.20, 1.2);
    water.run(Duration.ofDays(2));
    double stuckG = water.story.massG.get("A1");
    double otherG = water.story.massG.get("A2");
    for (int i = 0; i < 24; i++) {
      otherG -= 0.1;
      water.story.wait(TICK).with("A1", stuckG).with("A2", otherG).look();
    }
    return water.story;
  }

  private static Story noisy() {
    Story story = drying("A1", 350.0, 0.3, 2);
    for (int i = 0; i < 48; i++) {
      story.wait(TICK).with("A1", i % 2 == 0 ? 352.0 + i % 5 : 340.0 - i % 7).look();
    }
    return story;
  }

  private static Story drifting() {
    TrueWater water = new TrueWater(1, 0.30, 1.2);
    water.run(Duration.ofDays(10));
    water.driftGPerH.put("A1", 2.0);
    water.run(Duration.ofDays(5));
    return water.story;
  }

  private static Story swapped() {
    Story story = Story.from("2027-02-14T18:00:00Z").with("A1", 390.0).with("A2", 180.0);
    story.look();
    story.run(Duration.ofHours(1));
    story.with("A1", 180.0).with("A2", 390.0).run(Duration.ofMinutes(20));
    return story;
  }

  private static Story arriving(double part) {
    Story story = story().with("A1", 220.0);
    story.rateGPerH.put("A1", 0.3);
    story.arrives.put("A1", part);
    story.look();
    story.run(Duration.ofHours(6));
    return story;
  }

  /** Half of each pass runs past the mix into a tray of 100 mL. */
  private static Story runsThrough() {
    Story story = onBench("tray: 0.1 L\n" + Story.BENCH).with("A1", 220.0);
    story.rateGPerH.put("A1", 3.0);
    story.arrives.put("A1", 0.5);
    story.look();
    story.run(Duration.ofDays(4));
    return story;
  }

  private static Story deadSensor() {
    Story story = story().with("A1", 350.0);
    story.airC = 18.0;
    story.look();
    story.airC = Double.NaN;
    story.run(Duration.ofHours(7));
    return story;
  }

  /** A1 past its dry line, with no plain water and feed of that strength. */
  private static Story onFeedAlone(double strength) {
    String tanks = "tanks:\n  feed: {size: 4 L, feed: leafy, strength: " + strength + "}\n";
    Story story =
        onBench(Story.BENCH.replaceAll("(?s)tanks:\\n  plain: [^\\n]*\\n  feed: [^\\n]*\\n", tanks))
            .with("A1", TrueWater.massG(0.85));
    story.look();
    story.run(Duration.ofHours(1));
    return story;
  }

  /** Weighed drained, it lost a gram an hour for three days; a can fills it, and nothing drains. */
  private static Story littleAir() {
    Story story = drying("A1", 400.0, 0.0, 1);
    story.wait(TICK).look("{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\"}");
    story.rateGPerH.put("A1", 1.0);
    story.run(Duration.ofHours(72));
    story.rootC = 20.0;
    story.rateGPerH.put("A1", 0.3);
    story.with("A1", 440.0).run(Duration.ofHours(40));
    return story;
  }

  private static Story humid() {
    Story story = story().with("A1", 350.0);
    story.airC = 18.0;
    story.rhPct = 92.0;
    story.look();
    story.run(Duration.ofHours(9));
    return story;
  }

  private static Story covered() {
    Story story = story().with("A1", 350.0);
    story.look("{\"id\":\"c\",\"kind\":\"cover\",\"cup\":\"A1\"}");
    story.run(Duration.ofHours(3));
    return story;
  }

  private static Story otherFeedInAWeek() {
    String plan = "    - {from: 2026-11-01, feed: leafy}\n";
    Story story =
        onBench(
                Story.BENCH
                    .replace(plan, plan + "    - {from: 2027-02-21, feed: fruity}\n")
                    .replace(
                        "water: {ec: 0.30}",
                        """
                          fruity:
                            analysis: {N: 10, P2O5: 10, K2O: 30}
                            label: {amount: 2 tsp, per: 1 US gal, every: 14 d}
                            spoon: 5.0 g
                            ec: 1.2
                        water: {ec: 0.30}\
                        """))
            .with("A1", 350.0);
    story.look();
    return story;
  }

  private static Story lowTank() {
    Story story = story().with("A1", 350.0);
    story.tankMl.put("plain", 1_199.0);
    story.look();
    return story;
  }

  private static Story oldFeed() {
    Story story = story().with("A1", 350.0);
    story.look("{\"id\":\"f\",\"kind\":\"filled\",\"tank\":\"feed\",\"ml\":4000}");
    story.wait(Duration.ofDays(14)).look();
    assertTrue(!story.raised("feed-old"), "it keeps for 14 days");
    story.wait(TICK).look();
    return story;
  }

  private static Story spill() {
    Story story = story().with("A1", 350.0);
    story.leak = true;
    story.look();
    return story;
  }

  private static Story roots(double rootC) {
    Story story = story().with("A1", 350.0);
    story.rootC = rootC;
    story.look();
    return story;
  }

  /** 323 mL at capacity: 2.6 mS/cm are 841 mS/cm x mL, 281 mL of water of 3.0 mS/cm. */
  private static Story salty() {
    Story story =
        onBench(Story.BENCH.replace("water: {ec: 0.30}", "water: {ec: 3.0}")).with("A1", 350.0);
    story.look();
    story
        .wait(TICK)
        .look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":290,\"strength\":0}");
    story.wait(TICK).look();
    return story;
  }

  /** From refill to due are 0.4 of 272 mL: a cup that loses 5 g/h goes through it in a day. */
  private static Story potBound() {
    Story story =
        onBench(Story.BENCH.replace("stage: toughened, cutting", "stage: circling, cutting"))
            .with("A1", 390.0);
    story.rateGPerH.put("A1", 5.0);
    story.look();
    story.run(Duration.ofDays(4));
    return story;
  }

  private static Story circlingForWeeks() {
    Story story =
        onBench(Story.BENCH.replace("stage: toughened, cutting", "stage: circling, cutting"))
            .with("A1", 330.0);
    story.look();
    story.wait(Duration.ofDays(21)).look();
    return story;
  }

  /**
   * As {@link #useGrows}, of a struck cutting of which a person says once a week that it has none.
   */
  private static Story leavesBeforeRoots() {
    TrueWater water = new TrueWater(5, 0.10, 0.6);
    water.story.look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":\"struck\"}");
    water.run(Duration.ofDays(14));
    for (int day = 0; day < 30; day++) {
      water.rateGPerH.merge("A1", 1.04, (rate, by) -> rate * by);
      water.run(Duration.ofDays(1));
      water
          .story
          .wait(Duration.ofMinutes(1))
          .look(
              "{\"id\":\"s%d\",\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":\"struck\"}"
                  .formatted(day));
    }
    return water.story;
  }

  /** Past 0.75 for seven hours under a hold; then a can of 150 mL. */
  private static Story stoodDry() {
    Story story = story().with("A1", 195.0);
    story.rateGPerH.put("A1", 0.5);
    story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-16T08:00:00Z\"}");
    story.run(Duration.ofHours(7));
    story.massG.merge("A1", 150.0, Double::sum);
    story.run(Duration.ofHours(1));
    return story;
  }

  private static Story saidToBeOut() {
    Story story = drying("A1", 350.0, 0.3, 1);
    story.massG.remove("A1");
    story.wait(Duration.ofMinutes(5)).look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}");
    story.run(Duration.ofHours(1));
    return story;
  }

  private static Story outInTheCold() {
    Story story = saidToBeOut();
    story.outdoorC = 5.0;
    story.wait(Duration.ofMinutes(5)).look();
    return story;
  }

  private static Story stillHeated() {
    Story story = story().with("A1", 350.0);
    story.rateGPerH.put("A1", 0.3);
    story.airC = 16.0;
    story.rootC = 21.0;
    story.look();
    story.run(Duration.ofHours(73));
    return story;
  }

  private static Story dim() {
    Story story = story().with("A1", 350.0);
    story.rateGPerH.put("A1", 0.3);
    story.lightUmol = 40.0;
    story.look();
    story.run(Duration.ofHours(42));
    return story;
  }
}
