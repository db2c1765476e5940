package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.CupState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a person told by mistake is taken back, and what holds again is said. */
class ForgetStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final String DRAINED =
      "{\"id\":\"%s\",\"kind\":\"drained\",\"cup\":\"A2\",\"sure\":true}";
  private static final String WATERED =
      "{\"id\":\"%s\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":60,\"strength\":0.5}";
  private static final String FILLED =
      "{\"id\":\"%s\",\"kind\":\"filled\",\"tank\":\"plain\",\"ml\":%d}";

  private static Story evening() {
    return Story.from("2027-02-14T18:00:00Z").with("A1", 300.0).with("A2", 166.0);
  }

  private static Receipt forget(Story story, String order) {
    String id = "f" + story.at.getEpochSecond();
    Advice advice =
        story
            .wait(TICK)
            .look("{\"id\":\"%s\",\"kind\":\"forget\",\"order\":\"%s\"}".formatted(id, order));
    return advice.receipts().get(advice.receipts().size() - 1);
  }

  @Test
  void drainedTakenBackLeavesWhatWasBelievedBefore() {
    Story story = evening();
    CupState before = story.tick.step(story.state, story.seen()).state().cups().get("A2");
    story.look(DRAINED.formatted("d"));
    assertEquals(166.0, story.state.cups().get("A2").weight().estimate().capacity().massG(), 1e-9);
    Receipt done = forget(story, "d");
    assertEquals("done", done.outcome());
    assertEquals("\"A2\" is believed to weigh 238.0 g at capacity again (predicted)", done.why());
    assertEquals(
        before.weight().estimate().capacity(),
        story.state.cups().get("A2").weight().estimate().capacity());
    assertEquals("refused", forget(story, "d").outcome(), "once");
  }

  @Test
  void drainedThatWaitsForAWeightIsCalledOff() {
    Story story = evening();
    story.look();
    story.with("A2", 238.0).wait(TICK).look(DRAINED.formatted("d"));
    Advice off = story.wait(TICK).look("{\"id\":\"f\",\"kind\":\"forget\",\"order\":\"d\"}");
    assertEquals(2, off.receipts().size());
    assertEquals("taken back by order f", off.receipts().get(0).why());
    assertEquals("done", off.receipts().get(1).outcome());
    story.run(Duration.ofHours(1));
    assertFalse(story.state.cups().get("A2").weight().estimate().capacity().learned());
  }

  @Test
  void newestDrainedIsTakenBackFirst() {
    Story story = evening();
    story.look(DRAINED.formatted("d"));
    story.wait(TICK).look(DRAINED.formatted("e"));
    Receipt refused = forget(story, "d");
    assertEquals("refused", refused.outcome());
    assertEquals(
        "order: \"A2\" was told anew by order \"e\": take that one back first", refused.why());
    assertEquals("done", forget(story, "e").outcome());
    assertEquals("done", forget(story, "d").outcome());
    assertFalse(story.state.cups().get("A2").weight().estimate().capacity().learned());
  }

  @Test
  void wateredTakenBackLeavesLedgerAndSalts() {
    Story story = evening();
    story.look();
    story.wait(TICK);
    CupState without = story.tick.step(story.state, story.seen()).state().cups().get("A1");
    story.look(WATERED.formatted("w"));
    CupState with = story.state.cups().get("A1");
    assertEquals(1, with.doses().given().size());
    assertTrue(with.doses().salts().msMl() > without.doses().salts().msMl());
    Receipt done = forget(story, "w");
    assertEquals("60.0 mL at strength 0.50 no longer count as given to \"A1\"", done.why());
    CupState again = story.state.cups().get("A1");
    assertEquals(List.of(), again.doses().given());
    assertEquals(without.doses().lastPassAt(), again.doses().lastPassAt());
    assertEquals(without.doses().salts().msMl(), again.doses().salts().msMl(), 1e-6);
    assertEquals(0.0, again.weight().estimate().awaitedMl(), "no rise is waited for");
    assertEquals(0.0, story.look().cups().get("A1").fed());
  }

  @Test
  void oneOfTwoCansIsTakenBackWhicheverCameFirst() {
    Story story = evening();
    story.look();
    story.wait(TICK).look(WATERED.formatted("w"));
    story.wait(TICK).look(WATERED.formatted("x"));
    assertEquals("done", forget(story, "w").outcome());
    assertEquals(1, story.state.cups().get("A1").doses().given().size());
    assertEquals(
        story.at.minus(TICK),
        story.state.cups().get("A1").doses().given().get(0).at(),
        "the later stays");
  }

  @Test
  void filledTakenBackHoldsWhatItHeldLessWhatWasDrawn() {
    Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 255.0).with("A2", 230.0);
    story.look(FILLED.formatted("one", 3000));
    story.wait(TICK).look(FILLED.formatted("two", 9000));
    story.run(Duration.ofHours(1));
    Receipt done = forget(story, "two");
    double drawnMl = story.passes.stream().mapToDouble(Advice.Pass::plainMl).sum();
    assertTrue(drawnMl > 60.0);
    assertTrue(done.why().startsWith("the tank \"plain\" is believed to hold"), done.why());
    assertTrue(done.why().contains("drawn since stay counted"), done.why());
    assertEquals(3000.0 - drawnMl, story.state.tanks().get("plain").leftMl(), 0.5);
    assertEquals("done", forget(story, "one").outcome());
    assertTrue(Double.isInfinite(story.state.tanks().get("plain").leftMl()), "nobody had said");
  }

  @Test
  void gaugeKnowsBetterWhatIsLeftThanAnySum() {
    Story story = evening();
    story.look("{\"id\":\"o\",\"kind\":\"filled\",\"tank\":\"feed\",\"ml\":2000,\"strength\":0.5}");
    story
        .wait(TICK)
        .look("{\"id\":\"p\",\"kind\":\"filled\",\"tank\":\"feed\",\"ml\":4000,\"strength\":0.25}");
    story.tankMl.put("feed", 3900.0);
    story.wait(TICK).look();
    assertEquals("done", forget(story, "p").outcome());
    assertEquals(3900.0, story.state.tanks().get("feed").leftMl());
    assertEquals(0.5, story.state.tanks().get("feed").strength());
  }

  @Test
  void dayIsTheLimitAndOtherOrdersAreNotTakenBack() {
    Story story = evening();
    story.look(DRAINED.formatted("d"));
    story.wait(Duration.ofHours(24));
    Receipt late = forget(story, "d");
    assertEquals(
        "order: \"d\" is no drained, watered or filled of the last day that can be taken back",
        late.why());
    story.wait(TICK).look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A2\"}");
    assertEquals("refused", forget(story, "a").outcome());
    Story inTime = evening();
    inTime.look(DRAINED.formatted("d"));
    inTime.wait(Duration.ofHours(24).minus(TICK));
    assertEquals("done", forget(inTime, "d").outcome());
  }

  @Test
  void anotherVesselOrACupTakenOutHasNothingToForget() {
    Story story = evening();
    story.look(DRAINED.formatted("d"), WATERED.formatted("w"));
    story
        .wait(TICK)
        .look(
            "{\"id\":\"p\",\"kind\":\"repot\",\"cup\":\"A2\",\"vessel\":\"tall\",\"mix\":\"coir-perlite\"}",
            "{\"id\":\"r\",\"kind\":\"retire\",\"cup\":\"A1\",\"because\":\"other\"}");
    assertEquals("refused", forget(story, "d").outcome());
    assertEquals("refused", forget(story, "w").outcome());
  }

  @Test
  void whatMayBeTakenBackSurvivesARestart() throws Exception {
    Story story = evening();
    story.look(DRAINED.formatted("d"), WATERED.formatted("w"), FILLED.formatted("t", 5000));
    String kept = Json.MAPPER.writeValueAsString(story.state);
    story.state = Json.MAPPER.readValue(kept, BenchState.class);
    for (String order : List.of("d", "w", "t")) {
      assertEquals("done", forget(story, order).outcome(), order);
    }
  }
}
