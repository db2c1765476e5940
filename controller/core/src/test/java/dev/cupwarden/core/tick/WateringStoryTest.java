package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.AlertNotice;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A1 is toughened and due at 265.995 g, full at 401.872 g; A2 is struck and due at 139.890 g. */
class WateringStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final double A1_REFILL_G = 401.872 - 0.05 * 271.754;

  @Test
  void dueCupGetsItsFirstPassAndTheOtherNone() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1).with("A2", 202.3);
    Advice advice = story.look();
    assertEquals(List.of("A1"), advice.passes().stream().map(Advice.Pass::cup).toList());
    assertEquals(30.0, story.givenMl("A1"), 1e-9);
    assertEquals("due", advice.passes().get(0).why());
    assertEquals(CupActivity.WATERING, advice.cups().get("A1").state());
    assertEquals(CupActivity.STEADY, advice.cups().get("A2").state());
    assertEquals(List.of(), advice.cups().get("A2").checks());
  }

  @Test
  void soaksBetweenPassesAndThenGoesOn() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.look();
    Advice soaking = story.wait(TICK).look();
    assertEquals(List.of(), soaking.passes());
    assertEquals(List.of("soak"), soaking.cups().get("A1").checks());
    assertEquals(CupActivity.SOAKING, soaking.cups().get("A1").state());
    assertEquals(List.of(), story.wait(TICK).look().passes());
    assertEquals(1, story.wait(TICK).look().passes().size());
  }

  @Test
  void learnedCupIsRefilledToItsLineAndNoFurther() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.look();
    Advice last = story.run(Duration.ofHours(4));
    assertEquals(A1_REFILL_G, story.massG.get("A1"), 5.0);
    assertTrue(story.massG.get("A1") <= A1_REFILL_G + 1.0, "never past the refill line");
    assertEquals(CupActivity.STEADY, last.cups().get("A1").state());
    assertTrue(last.cups().get("A1").checks().contains("no-dry-back"));
  }

  @Test
  void unlearnedCupGetsHalfOfWhatIsMissingIfNoReadingBearsItOut() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    double missingMl = A1_REFILL_G - 262.1;
    story.look();
    for (int hour = 0; hour < 5; hour++) {
      story.wait(Duration.ofHours(1)).look();
    }
    assertTrue(story.givenMl("A1") <= missingMl / 2, "at most half");
    assertTrue(story.givenMl("A1") > missingMl / 2 - 10, "and about half");
  }

  @Test
  void waterThatDoesNotArriveLatchesTheCupUntilAPersonClears() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 230.0);
    story.arrives.put("A1", 0.0);
    story.look();
    story.run(Duration.ofHours(3));
    assertTrue(story.raised("dose-short"));
    assertEquals(2, story.passes.size(), "two short passes and no third");
    story.arrives.put("A1", 1.0);
    Advice cleared = story.wait(TICK).look("{\"id\":\"c\",\"kind\":\"clear\",\"cup\":\"A1\"}");
    assertEquals("done", cleared.receipts().get(0).outcome());
    assertTrue(story.cleared("dose-short"));
    assertEquals(1, cleared.passes().size());
  }

  @Test
  void shortLatchEndsWhenTheWeightShowsThePassesAfterAll() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 230.0);
    story.arrives.put("A1", 0.0);
    story.look();
    story.run(Duration.ofMinutes(45));
    assertTrue(story.raised("dose-short"));
    story.arrives.put("A1", 1.0);
    story.with("A1", 230.0 + 60.0);
    story.run(Duration.ofMinutes(30));
    assertTrue(story.cleared("dose-short"));
  }

  @Test
  void threeCupsRunningStopThePump() {
    String yaml =
        Story.BENCH
            + "  A3: {vessel: tall, mix: coir-perlite, plant: vine, stage: toughened, cutting: 14"
            + " g}\n"
            + "  A4: {vessel: tall, mix: coir-perlite, plant: vine, stage: toughened, cutting: 14"
            + " g}\n";
    Story story = new Story(yaml, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    for (String cup : List.of("A1", "A3", "A4")) {
      story.with(cup, 230.0).arrives.put(cup, 0.0);
    }
    story.look();
    Advice last = story.run(Duration.ofHours(1));
    assertTrue(
        story.alerts.stream().anyMatch(a -> a.code().equals("dose-short") && a.cup() == null));
    assertTrue(story.state.pump().latch() != null);
    assertTrue(last.cups().get("A1").checks().contains("hardware"));
  }

  @Test
  void cupNearItsCapacityThatTakesNoMoreIsFullNotShort() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.look();
    while (story.massG.get("A1") < 372.0) {
      story.wait(TICK).look();
    }
    story.arrives.put("A1", 0.0);
    story.run(Duration.ofHours(2));
    assertFalse(story.raised("dose-short"));
    assertTrue(story.massG.get("A1") < A1_REFILL_G - 5, "the plateau is short of the line");
    assertEquals(0.0, story.look().cups().get("A1").depletion(), 0.02, "and learned as capacity");
  }

  @Test
  void windowClosesTheDayAndOnlyARescueGoesThrough() {
    Story night = Story.from("2027-02-14T20:00:00Z").with("A1", 250.0);
    Advice due = night.look();
    assertEquals(List.of(), due.passes());
    assertEquals(List.of("window"), due.cups().get("A1").checks());
    assertEquals(CupActivity.DUE, due.cups().get("A1").state());
    Story dry = Story.from("2027-02-14T20:00:00Z").with("A1", 190.0);
    assertEquals("rescue", dry.look().passes().get(0).why());
  }

  @Test
  void doubtfulClockHoldsBackAllButARescueAndNoLongerThanItIsDoubted() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 250.0);
    story.clockInDoubt = true;
    Advice due = story.look();
    assertEquals(List.of(), due.passes());
    assertEquals(List.of("clock"), due.cups().get("A1").checks());
    assertEquals(
        "the clock is not trusted",
        story.tick.standing(story.state).decisions().get("A1").reasons().get(0).sentence());
    story.clockInDoubt = false;
    assertEquals(1, story.wait(TICK).look().passes().size());
    Story dry = Story.from("2027-02-14T08:00:00Z").with("A1", 190.0);
    dry.clockInDoubt = true;
    assertEquals("rescue", dry.look().passes().get(0).why());
  }

  @Test
  void rescueAtNightStopsAtHalf() {
    Story dry = Story.from("2027-02-14T20:00:00Z").with("A1", 190.0);
    double missingMl = A1_REFILL_G - 190.0;
    dry.look();
    dry.run(Duration.ofHours(6));
    assertEquals(missingMl / 2, dry.givenMl("A1"), 10.0);
  }

  @Test
  void coldHoldsThenEndsWhenRootsWarm() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", 255.0);
    story.rootC = 8.0;
    assertEquals(List.of("cold"), story.look().cups().get("A1").checks());
    assertTrue(story.raised("cold"));
    story.rootC = 15.0;
    assertEquals(1, story.wait(TICK).look().passes().size());
    assertTrue(story.cleared("cold"));
  }

  @Test
  void frostStopsEvenARescue() {
    Story story = Story.from("2027-02-14T09:00:00Z").with("A1", 185.0);
    story.airC = 1.0;
    assertEquals(List.of("frost"), story.look().cups().get("A1").checks());
    assertEquals(List.of(), story.passes);
  }

  @Test
  void weightOutOfRangeIsDoubtedAtOnceAndTrustedAfterTenQuietMinutes() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.with("A1", 5000.0);
    Advice doubt = story.look();
    assertFalse(doubt.cups().get("A1").trusted());
    assertEquals(List.of("untrusted"), doubt.cups().get("A1").checks());
    assertEquals(CupActivity.UNTRUSTED, doubt.cups().get("A1").state());
    story.with("A1", 262.1);
    assertEquals(List.of(), story.wait(TICK).look().passes());
    assertEquals(List.of(), story.wait(TICK).look().passes());
    story.run(Duration.ofMinutes(15));
    assertFalse(story.passes.isEmpty());
  }

  @Test
  void leakStopsEverything() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.leak = true;
    assertEquals(List.of("hardware"), story.look().cups().get("A1").checks());
    assertTrue(story.raised("leak"));
    assertEquals(
        "water where none belongs",
        story.tick.standing(story.state).decisions().get("A1").reasons().get(0).sentence());
    story.leak = false;
    story.run(Duration.ofHours(1));
    assertEquals(List.of(), story.passes, "the puddle may only have moved on");
    assertEquals(
        List.of("raised"),
        story.alerts.stream()
            .filter(a -> a.code().equals("leak") && !a.again())
            .map(AlertNotice::state)
            .toList());
    story.wait(TICK).look("{\"id\":\"c\",\"kind\":\"clear\"}");
    assertFalse(story.passes.isEmpty());
  }

  @Test
  void wetCupIsToldAfterADayAndHeldAfterTwo() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 455.0);
    story.look();
    Advice wet = story.run(Duration.ofHours(25));
    assertEquals(CupActivity.WET, wet.cups().get("A1").state());
    assertTrue(story.raised("staying-wet"));
    assertFalse(story.raised("wet-too-long"));
    Advice longer = story.run(Duration.ofHours(24));
    assertTrue(story.raised("wet-too-long"));
    assertTrue(story.cleared("staying-wet"));
    assertTrue(longer.cups().get("A1").checks().contains("wet-too-long"));
  }

  @Test
  void emptyTankIsHardwareAndALowOneIsTold() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1);
    story.tankMl.put("plain", 3.0);
    story.tankMl.put("feed", 0.0);
    assertEquals(List.of("hardware"), story.look().cups().get("A1").checks());
    assertTrue(story.raised("tank-low"));
  }

  @Test
  void dailyListsAWholeWateringOfALearnedCup() {
    Story story = new Story(Story.BENCH, "2027-02-14T08:00:00Z", Tick.Rounds.DAILY);
    story.with("A1", 262.1);
    Advice first = story.look();
    double missingMl = A1_REFILL_G - 262.1;
    double firstMl = story.givenMl("A1");
    assertTrue(first.passes().size() > 1 && firstMl <= missingMl / 2, "half, in passes");
    story.rateGPerH.put("A1", 1.2);
    story.wait(Duration.ofHours(72)).look();
    assertEquals(A1_REFILL_G, story.massG.get("A1"), 6.0);
  }

  @Test
  void restartFromJsonChangesNothing() throws Exception {
    Story straight = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1).with("A2", 130.0);
    Story restarted = Story.from("2027-02-14T08:00:00Z").with("A1", 262.1).with("A2", 130.0);
    for (int i = 0; i < 40; i++) {
      Advice one = straight.wait(TICK).look();
      Advice other = restarted.wait(TICK).look();
      assertEquals(Json.MAPPER.writeValueAsString(one), Json.MAPPER.writeValueAsString(other));
      restarted.state =
          Json.MAPPER.readValue(Json.MAPPER.writeValueAsString(restarted.state), BenchState.class);
    }
  }
}
