package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class OrderStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  private static Story morning() {
    return Story.from("2027-02-14T08:00:00Z").with("A1", 262.1).with("A2", 202.3);
  }

  private static Receipt only(Advice advice) {
    assertEquals(1, advice.receipts().size());
    return advice.receipts().get(0);
  }

  /** What cannot run out cannot be flushed, and no weight at rest is its capacity. */
  @Test
  void vesselWithoutHolesIsNeitherFlushedNorDrained() {
    Story story =
        new Story(
            Story.BENCH.replace("empty: 13 g", "empty: 13 g, holes: none"),
            "2027-02-14T08:00:00Z",
            Tick.Rounds.ONE_A_TICK);
    var receipts =
        story
            .with("A1", 380.0)
            .look(
                "{\"id\":\"f\",\"kind\":\"flush\",\"cup\":\"A1\",\"ml\":200}",
                "{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\"}")
            .receipts();
    assertEquals(
        java.util.List.of(
            "cup: the vessel of A1 has no holes (holes: none), so it cannot be flushed",
            "cup: the vessel of A1 has no holes (holes: none), so it cannot drain"),
        receipts.stream().map(receipt -> receipt.why()).toList());
  }

  @Test
  void holdHoldsTheBenchNamesWhoWillBeDryAndEndsByItself() {
    Story story = morning().with("A1", 205.0);
    Advice held = story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\"}");
    assertEquals("done", only(held).outcome());
    assertEquals(List.of("A1"), only(held).dryBefore());
    assertEquals(List.of(), held.passes());
    assertEquals(List.of("hold"), held.cups().get("A1").checks());
    assertEquals(CupActivity.HELD, held.cups().get("A2").state());
    story.run(Duration.ofHours(24));
    assertFalse(story.passes.isEmpty(), "the hold has ended");
  }

  @Test
  void holdLetsARescueThroughOnlyIfItSaysSo() {
    Story strict = morning().with("A1", 180.0);
    strict.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\"}");
    assertEquals(List.of(), strict.passes);
    Story kind = morning().with("A1", 180.0);
    kind.look(
        "{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\",\"rescue\":true}");
    assertEquals("rescue", kind.passes.get(0).why());
  }

  @Test
  void releaseEndsAHold() {
    Story story = morning();
    story.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\"}");
    story.wait(TICK).look("{\"id\":\"r\",\"kind\":\"release\"}");
    assertEquals(1, story.passes.size());
  }

  @Test
  void stageIsSetByAPersonAndChangesTheLines() {
    Story story = morning();
    Advice advice =
        story.look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"white\"}");
    assertEquals("done", only(advice).outcome());
    assertEquals(RootStage.WHITE, advice.cups().get("A2").stage());
  }

  @Test
  void cupInALargerVesselIsAnotherWeightAndNoLeak() {
    Story story = morning();
    story.run(Duration.ofHours(1));
    story.with("A2", 330.0).wait(TICK);
    Advice moved =
        story.look(
            "{\"id\":\"p\",\"kind\":\"repot\",\"cup\":\"A2\",\"vessel\":\"tall\",\"mix\":\"coir-perlite\"}");
    assertEquals("done", only(moved).outcome());
    assertTrue(moved.cups().get("A2").trusted());
    story.run(Duration.ofHours(2));
    assertFalse(story.raised("valve-leaking") || story.raised("scale-out-of-range"));
  }

  @Test
  void noFeedBeforeToughenedNotEvenByHand() {
    Story story = morning().with("A2", 135.0);
    Advice due = story.look();
    Advice.Pass struck =
        due.passes().stream().filter(p -> p.cup().equals("A2")).findFirst().orElseThrow();
    assertEquals(0.0, struck.feedMl(), 0.0);
    Story asked = morning().with("A2", 190.0 - 40.0);
    Advice refused =
        asked.look("{\"id\":\"d\",\"kind\":\"dose\",\"cup\":\"A2\",\"ml\":20,\"strength\":0.25}");
    assertEquals("refused", only(refused).outcome());
    assertTrue(only(refused).why().contains("stage"), only(refused).why());
  }

  @Test
  void doseByHandIsGivenInPassesAndItsReceiptFollows() {
    Story story = morning().with("A1", 330.0);
    Advice taken =
        story.look("{\"id\":\"d\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":45,\"strength\":0.0}");
    assertEquals("taken", only(taken).outcome());
    assertEquals("order", taken.passes().get(0).why());
    story.run(Duration.ofMinutes(40));
    assertEquals(45.0, story.givenMl("A1"), 5.0);
  }

  @Test
  void doseByHandMayLiftTheWindowButNotFrost() {
    String lifting =
        "{\"id\":\"%s\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":20,\"strength\":0,\"lift\":[\"window\"]}";
    Story night = Story.from("2027-02-14T21:00:00Z").with("A1", 300.0);
    assertEquals(1, night.look(lifting.formatted("a")).passes().size());
    Story frost = Story.from("2027-02-14T21:00:00Z").with("A1", 300.0);
    frost.airC = 0.0;
    Advice refused = frost.look(lifting.formatted("a"));
    assertEquals("refused", only(refused).outcome());
    Advice unliftable =
        frost
            .wait(TICK)
            .look(
                "{\"id\":\"b\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":20,\"strength\":0,\"lift\":[\"frost\"]}");
    assertEquals("refused", only(unliftable).outcome());
  }

  @Test
  void flushThatRunsThroughIsNotTakenForBypassAndComesToItsEnd() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 400.0);
    story.run(Duration.ofHours(1));
    story.arrives.put("A1", 0.4);
    story.look("{\"id\":\"f\",\"kind\":\"flush\",\"cup\":\"A1\",\"ml\":240}");
    story.run(Duration.ofHours(3));
    assertEquals(240.0, story.givenMl("A1"), 5.0);
  }

  /** What a flush has filled is heavier than what it weighs drained. */
  @Test
  void flushOfWhichNothingStaysTeachesNoCapacityAndIsNoShortDose() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 440.0);
    story.run(Duration.ofHours(1));
    story.arrives.put("A1", 0.05);
    story.look("{\"id\":\"f\",\"kind\":\"flush\",\"cup\":\"A1\",\"ml\":180}");
    story.run(Duration.ofHours(2));
    assertEquals(180.0, story.givenMl("A1"), 5.0);
    assertFalse(story.state.cups().get("A1").weight().estimate().capacity().learned());
    assertFalse(story.raised("dose-short") || story.raised("sheds-water"));
  }

  @Test
  void flushGoesPastTheWetLineWithPlainWater() {
    Story story = morning().with("A1", 440.0);
    Advice advice = story.look("{\"id\":\"f\",\"kind\":\"flush\",\"cup\":\"A1\",\"ml\":90}");
    assertEquals("taken", only(advice).outcome());
    assertEquals("flush", advice.passes().get(0).why());
    assertEquals(0.0, advice.passes().get(0).feedMl(), 0.0);
  }

  @Test
  void flushWaitsForPlainWaterRatherThanTakeFeed() {
    Story story = morning().with("A1", 400.0);
    story.look("{\"id\":\"s\",\"kind\":\"stage\",\"cup\":\"A1\",\"stage\":\"toughened\"}");
    story.tankMl.put("plain", 5.0);
    story.wait(TICK).look("{\"id\":\"f\",\"kind\":\"flush\",\"cup\":\"A1\",\"ml\":90}");
    assertEquals(List.of(), story.passes);
    story.tankMl.put("plain", 3_000.0);
    story.wait(TICK).look();
    assertEquals(List.of(0.0), story.passes.stream().map(Advice.Pass::feedMl).toList());
  }

  @Test
  void whatAPersonFilledIntoATankIsWhatComesOutOfIt() {
    Story story = morning().with("A1", 262.1);
    Tick.Step step =
        story.step(
            "{\"id\":\"a\",\"kind\":\"filled\",\"tank\":\"feed\",\"ml\":2000,\"strength\":0}",
            "{\"id\":\"b\",\"kind\":\"filled\",\"tank\":\"plain\",\"ml\":1000}");
    assertEquals("feed", step.passes().get(0).plain().tank(), "the fuller one");
    double leftMl = step.state().tanks().get("feed").leftMl();
    assertEquals(2_000.0 - step.passes().get(0).plainMl(), leftMl, 1e-9);
  }

  @Test
  void repeatedStaleAndMalformedOrdersChangeNothing() {
    Story story = morning().with("A1", 330.0);
    story.look("{\"id\":\"o\",\"kind\":\"away\",\"cup\":\"A2\"}");
    BenchState before = story.state;
    List<String> bad =
        List.of(
            "{\"id\":\"o\",\"kind\":\"back\",\"cup\":\"A2\"}",
            "{\"id\":\"p\",\"kind\":\"back\",\"cup\":\"A2\",\"expires\":\"2027-02-14T07:00:00Z\"}",
            "{\"id\":\"q\",\"kind\":\"back\",\"cup\":\"Z9\"}",
            "{\"id\":\"r\",\"kind\":\"back\",\"cup\":\"A2\",\"so\":1}",
            "{\"id\":\"s\",\"kind\":\"backwards\",\"cup\":\"A2\"}",
            "{\"kind\":\"back\",\"cup\":\"A2\"}",
            "{\"id\":\"t\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"tough\"}",
            "{\"id\":\"u\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":-4,\"strength\":0}",
            "17");
    Advice advice = story.wait(TICK).look(bad.toArray(String[]::new));
    assertEquals(bad.size(), advice.receipts().size());
    advice.receipts().forEach(r -> assertEquals("refused", r.outcome(), r.toString()));
    assertTrue(story.state.cups().get("A2").presence().away());
    assertEquals(before.cups().get("A1").setup(), story.state.cups().get("A1").setup());
  }

  @Test
  void cupThatIsAwayGetsNothingAndIsBackAfterTenQuietMinutes() {
    Story story = morning();
    Advice away = story.look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}");
    assertEquals(CupActivity.AWAY, away.cups().get("A1").state());
    assertEquals(List.of("away"), away.cups().get("A1").checks());
    story.wait(TICK).look("{\"id\":\"b\",\"kind\":\"back\",\"cup\":\"A1\"}");
    assertEquals(List.of(), story.passes);
    story.run(Duration.ofMinutes(15));
    assertEquals(1, story.passes.size());
  }

  @Test
  void cupIsAddedAndRetiredWhileTheBenchRuns() {
    Story story = morning();
    Advice added =
        story.look(
            "{\"id\":\"n\",\"kind\":\"add\",\"cup\":\"B1\",\"vessel\":\"tall\",\"mix\":\"coir-perlite\","
                + "\"plant\":\"vine\",\"stage\":\"struck\",\"cutting\":\"10 g\"}");
    assertEquals("done", only(added).outcome(), only(added).toString());
    assertTrue(added.cups().containsKey("B1"));
    Advice gone =
        story
            .wait(TICK)
            .look("{\"id\":\"x\",\"kind\":\"retire\",\"cup\":\"B1\",\"because\":\"rooted\"}");
    assertFalse(gone.cups().containsKey("B1"));
  }

  @Test
  void noMoreCupsAreAddedThanABenchMayHave() {
    Story story = morning();
    int had = story.look().cups().size();
    String[] adds =
        IntStream.rangeClosed(had + 1, 201)
            .mapToObj(
                i ->
                    "{\"id\":\"%1$d\",\"kind\":\"add\",\"cup\":\"B%1$d\",\"vessel\":\"tall\",\"mix\":\"coir-perlite\",\"plant\":\"vine\",\"stage\":\"struck\",\"cutting\":\"10 g\"}"
                        .formatted(i))
            .toArray(String[]::new);
    Advice added = story.wait(TICK).look(adds);
    assertEquals(200, added.cups().size());
    assertEquals(
        List.of("cup: there is no room for \"B201\": a bench has at most 200 cups"),
        added.receipts().stream()
            .filter(receipt -> receipt.outcome().equals("refused"))
            .map(Receipt::why)
            .toList());
  }

  @Test
  void drainedWeightBecomesTheCapacity() {
    Story story = morning().with("A1", 390.0);
    Advice advice = story.look("{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\"}");
    assertEquals("done", only(advice).outcome());
    assertEquals(0.0, advice.cups().get("A1").depletion(), 0.01);
  }

  @Test
  void wateredByHandCountsInTheLedgerAndSoaks() {
    Story story = morning();
    story.with("A1", 262.1 + 60.0);
    Advice advice =
        story.look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":60,\"strength\":0.5}");
    assertEquals(60.0 * 0.5 / 271.754, advice.cups().get("A1").fed(), 1e-3);
    assertTrue(advice.cups().get("A1").checks().contains("soak"));
  }
}
