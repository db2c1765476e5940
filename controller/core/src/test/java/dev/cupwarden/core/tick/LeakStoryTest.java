package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.dosing.Latch;
import dev.cupwarden.core.dosing.LeakWatch.Stage;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.PumpState;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A spill stops the pump at once, fetches a person, and does not cost a bench its cuttings. */
class LeakStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final double DRY_LINE = 0.75;
  private static final String CLEAR = "{\"id\":\"seen\",\"kind\":\"clear\"}";

  /** Cups that dry at rates of their own, half way to their due line. */
  private static Story bench(int cups, String tray) {
    StringBuilder rows = new StringBuilder();
    for (int cup = 1; cup <= cups; cup++) {
      rows.append(
          ("  C%02d: {vessel: tall, mix: coir-perlite, plant: blackcurrant, struck: 2026-11-14,"
                  + " stage: toughened, cutting: 14 g}\n")
              .formatted(cup));
    }
    String rules = Story.BENCH.substring(0, Story.BENCH.indexOf("cups:"));
    Story story =
        new Story(
            rules + tray + "\ncups:\n" + rows, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (int cup = 1; cup <= cups; cup++) {
      story.with("C%02d".formatted(cup), 330.0);
      story.rateGPerH.put("C%02d".formatted(cup), 0.5 + 0.02 * cup);
    }
    return story;
  }

  /** With the sensor wet for that long, and dry again. */
  private static Story spill(Story story, Duration wet) {
    story.leak = true;
    story.run(wet);
    story.leak = false;
    return story;
  }

  private static Stage stage(Story story) {
    return story.state.pump().watch().leak().stage();
  }

  private static double driest(Story story) {
    return story.tick.standing(story.state).decisions().values().stream()
        .mapToDouble(decision -> decision.depletion())
        .max()
        .orElseThrow();
  }

  private static double allMl(Story story) {
    return story.passes.stream().mapToDouble(pass -> pass.plainMl() + pass.feedMl()).sum();
  }

  private static String words(Story story) {
    return TellPumpWords.of(story, "leak");
  }

  @Test
  void threeWetHoursDoNotCostTwentyFourCupsTheirThreeWeeks() {
    // As the safety page wants it: a tray that holds both tanks.
    Story story = bench(24, "tray: 16 L");
    story.run(Duration.ofHours(24));
    spill(story, Duration.ofHours(3));
    assertEquals(List.of(), story.passes);
    double driest = 0.0;
    for (int hour = 0; hour < 21 * 24; hour += 4) {
      story.run(Duration.ofHours(4));
      driest = Math.max(driest, driest(story));
      assertTrue(story.state.alerts().containsKey("leak"), "nobody has looked");
    }
    assertTrue(driest < DRY_LINE + 0.02, "driest cup at " + driest);
    assertTrue(allMl(story) > 5_000.0 && allMl(story) <= 8_000.0, allMl(story) + " mL");
    assertEquals(Set.of("rescue"), Set.copyOf(story.passes.stream().map(p -> p.why()).toList()));
    assertFalse(story.cleared("leak"));

    story.wait(TICK).look(CLEAR);
    assertTrue(story.cleared("leak"));
    story.passes.clear();
    story.run(Duration.ofHours(24));
    assertTrue(story.passes.stream().anyMatch(pass -> pass.why().equals("due")), "as ever");
  }

  @Test
  void onePassAtATimeAndTheSensorIsWatchedBeforeTheNext() {
    Story story = bench(24, "tray: 12 L");
    story.run(Duration.ofHours(24));
    spill(story, Duration.ofHours(3)).massG.replaceAll((cup, g) -> 190.0);
    Instant dryAt = story.at.plus(TICK);
    Instant last = Instant.MIN;
    for (int tick = 0; tick < 200; tick++) {
      int passes = story.wait(TICK).look().passes().size();
      assertTrue(passes <= 1, "over the whole bench");
      if (passes == 1) {
        assertFalse(story.at.isBefore(dryAt.plus(Duration.ofHours(6))), "dry for six hours");
        assertFalse(story.at.isBefore(last.plus(Duration.ofMinutes(10))), "ten dry minutes");
        last = story.at;
      }
    }
    assertTrue(story.passes.size() > 24, "a pass each quarter of an hour");
  }

  @Test
  void halfOfASmallTraysRoomIsAllAndThatItIsUsedUpIsSaid() {
    Story story = bench(24, "");
    story.run(Duration.ofHours(24));
    spill(story, Duration.ofHours(3)).run(Duration.ofDays(3));
    assertTrue(words(story).contains("on rescue"), words(story));
    assertTrue(words(story).contains("250 mL in all"), words(story));
    story.run(Duration.ofDays(18));
    assertEquals(250.0, allMl(story), 5.0, "half of 500 mL");
    assertTrue(allMl(story) <= 250.0 + 1e-9);
    assertTrue(words(story).contains("used up (250 mL)"), words(story));
    assertTrue(words(story).contains("Water by hand"), words(story));
    assertTrue(story.state.alerts().containsKey("leak"));
  }

  @Test
  void wetAgainRightAfterARescueIsForAPersonAlone() {
    Story story = bench(3, "tray: 12 L");
    story.run(Duration.ofHours(24));
    spill(story, Duration.ofHours(3)).massG.replaceAll((cup, g) -> 190.0);
    while (story.passes.isEmpty()) {
      story.wait(TICK).look();
    }
    spill(story, TICK);
    assertEquals(Stage.PERSON, stage(story));
    assertTrue(words(story).contains("Wet again"), words(story));
    story.run(Duration.ofDays(4));
    assertEquals(1, story.passes.size(), "however long it is dry");
    assertEquals(Stage.PERSON, stage(story));
    assertTrue(story.look().cups().get("C01").checks().contains("hardware"));
    assertEquals(
        "wet again under a rescue: a person clears it",
        story.tick.standing(story.state).decisions().get("C01").reasons().get(0).sentence());
    story.wait(TICK).look(CLEAR);
    assertEquals(Stage.SOUND, stage(story));
    story.run(Duration.ofHours(1));
    assertTrue(story.passes.size() > 1);
  }

  @Test
  void wetWhileNothingWasPumpedWaitsSixDryHoursMoreAndTheSumGoesOn() {
    Story story = bench(3, "tray: 1 L");
    story.run(Duration.ofHours(24));
    spill(story, Duration.ofHours(3)).massG.replaceAll((cup, g) -> 230.0);
    story.run(Duration.ofDays(3));
    double before = allMl(story);
    assertTrue(before > 0.0);
    story.run(Duration.ofHours(2));
    while (story.state.pump().watch().leak().watching(story.at)) {
      story.wait(TICK).look();
    }
    spill(story.wait(TICK), Duration.ofMinutes(10));
    assertEquals(Stage.WET, stage(story));
    story.run(Duration.ofDays(40));
    assertEquals(Stage.RESCUE, stage(story));
    assertTrue(allMl(story) > before && allMl(story) <= 500.0 + 1e-9, allMl(story) + " mL");
  }

  @Test
  void onRescueACupThatIsOnlyDueAndAPersonsDoseWaitForTheClear() {
    Story story = bench(2, "tray: 12 L");
    story.run(Duration.ofHours(24));
    spill(story, Duration.ofHours(3)).massG.replaceAll((cup, g) -> 250.0);
    story.run(Duration.ofHours(24));
    assertEquals(Stage.RESCUE, stage(story));
    assertEquals(List.of(), story.passes);
    List<Receipt> receipts =
        story
            .wait(TICK)
            .look("{\"id\":\"d\",\"kind\":\"dose\",\"cup\":\"C01\",\"ml\":20,\"strength\":0}")
            .receipts();
    assertEquals(
        "hardware (after a leak only cups past their dry line get water)", receipts.get(0).why());
  }

  @Test
  void sensorThatCannotBeReadIsNoDryOne() {
    Story story = bench(2, "tray: 12 L");
    story.massG.replaceAll((cup, g) -> 200.0);
    story.leakUnread = true;
    story.run(Duration.ofHours(24));
    assertEquals(List.of(), story.passes);
    assertTrue(story.raised("leak"));
    assertTrue(words(story).contains("cannot be read"), words(story));
    story.leakUnread = false;
    story.wait(TICK).look();
    assertTrue(story.cleared("leak"), "it was never wet");
    assertFalse(story.passes.isEmpty());
  }

  @Test
  void wetSensorThatThenCannotBeReadStaysOff() {
    Story story = bench(2, "tray: 12 L");
    story.run(Duration.ofHours(1));
    spill(story, Duration.ofHours(1)).massG.replaceAll((cup, g) -> 200.0);
    story.leakUnread = true;
    story.run(Duration.ofDays(3));
    assertEquals(List.of(), story.passes);
    assertTrue(words(story).contains("was wet and cannot be read"), words(story));
    story.leakUnread = false;
    story.run(Duration.ofHours(6));
    assertEquals(List.of(), story.passes, "six hours that somebody saw");
    story.run(Duration.ofHours(1));
    assertFalse(story.passes.isEmpty());
  }

  @Test
  void tankThatFellByMoreThanWasPumpedKeepsThePumpOff() {
    Story story = bench(2, "tray: 1 L");
    story.tankMl.put("plain", 9_000.0);
    story.run(Duration.ofHours(2));
    story.tankMl.put("plain", 7_900.0);
    spill(story, Duration.ofHours(3)).massG.replaceAll((cup, g) -> 200.0);
    story.tankMl.put("plain", 12_000.0);
    story.run(Duration.ofDays(5));
    assertEquals(Stage.UNEXPLAINED, stage(story), "a fill explains nothing");
    assertEquals(List.of(), story.passes);
    assertTrue(words(story).contains("More water is missing"), words(story));
    story.wait(TICK).look(CLEAR);
    story.run(Duration.ofHours(1));
    assertFalse(story.passes.isEmpty());
  }

  @Test
  void tankThatFellByWhatWasPumpedExplainsIt() {
    Story story = bench(2, "tray: 1 L");
    story.massG.replaceAll((cup, g) -> 230.0);
    story.tankMl.put("plain", 9_000.0);
    story.tankMl.put("feed", 2_000.0);
    for (int tick = 0; tick < 24; tick++) {
      for (var pass : story.wait(TICK).look().passes()) {
        story.tankMl.merge("plain", -pass.plainMl(), Double::sum);
        story.tankMl.merge("feed", -pass.feedMl(), Double::sum);
      }
    }
    assertTrue(allMl(story) > 60.0);
    assertEquals(0.0, story.state.pump().watch().leak().balance().unexplainedMl(), 1e-6);
  }

  @Test
  void passesThatNeverCameKeepThePumpOffWhereTheTrayIsSmall() {
    Story story = bench(2, "tray: 100 mL");
    story.massG.replaceAll((cup, g) -> 200.0);
    story.arrives.put("C01", 0.0);
    story.arrives.put("C02", 0.0);
    story.run(Duration.ofHours(1));
    assertTrue(allMl(story) > 100.0, "into the tray, by two cups");
    story.arrives.clear();
    spill(story, Duration.ofHours(3)).run(Duration.ofHours(12));
    assertEquals(Stage.UNEXPLAINED, stage(story));
  }

  @Test
  void leakThatAnOlderJournalKeptAsALatchIsOneStill() {
    Story story = bench(2, "tray: 12 L").wait(TICK);
    story.look();
    BenchState state = story.state;
    Latch leak = new Latch(AlertCode.LEAK, state.at(), 1.0, 0.0);
    story.state = state.with(new PumpState(leak, List.of(), true, null, 0.0, null, 0.0));
    story.massG.replaceAll((cup, g) -> 200.0);
    story.run(Duration.ofHours(6));
    assertEquals(Stage.DRYING, stage(story));
    assertEquals(List.of(), story.passes);
    story.run(Duration.ofHours(1));
    assertEquals(Stage.RESCUE, stage(story));
  }
}
