package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.dosing.Hose;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Observation;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.state.BenchState;
import dev.cupwarden.core.state.HoseState;
import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** What cups get that share 12 mL of hose; A1 may be fed, A2 is struck. */
class HoseStoryTest {
  private static final Duration TICK = Duration.ofMinutes(5);

  /** The feed of the file at its label's rate: 20 % of 5.8 g in a US gallon. */
  private static final double LABEL_N_MG_PER_L = 306.4;

  private static Story morning(String keys) {
    return new Story(keys + "\n" + Story.BENCH, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
  }

  private static Story atHose() {
    return morning("hose: 12 mL");
  }

  /** A cup that holds so much. */
  private static Story dry(Story story, String cup, double depletion) {
    CupFrame frame = CupFrame.of(story.bench, story.bench.cups().get(cup));
    return story.with(cup, frame.weights().massG(depletion));
  }

  private static Hose full(Story story) {
    return Hose.full(story.bench.hose().volumeMl(), 0.5, "leafy");
  }

  private static void fill(Story story) {
    BenchState was = story.state;
    story.state =
        new BenchState(
            was.at() == null ? story.at.minus(TICK) : was.at(),
            was.clockInDoubt(),
            was.cups(),
            was.air(),
            was.tanks(),
            was.pump(),
            HoseState.NONE.with(full(story)),
            was.compared(),
            was.orders(),
            was.alerts());
  }

  private static double nMgPerL(Advice.Pass pass) {
    return pass.strength() * LABEL_N_MG_PER_L;
  }

  @Test
  void plainWaterGoesFirstAndFeedWaitsForItsTurn() {
    Story story = dry(dry(atHose(), "A1", 0.55), "A2", 0.65);
    Advice first = story.look();
    assertEquals(List.of("A2"), first.passes().stream().map(Advice.Pass::cup).toList());
    assertEquals(List.of("hose"), first.cups().get("A1").checks());
    story.run(Duration.ofHours(3));
    assertTrue(story.givenMl("A1") > 50.0, "fed when A2 had its water");
    assertTrue(story.passes.stream().anyMatch(pass -> pass.feedMl() > 0.0));
    List<Advice.Pass> ofA2 = story.passes.stream().filter(p -> p.cup().equals("A2")).toList();
    assertTrue(ofA2.stream().allMatch(pass -> nMgPerL(pass) <= 5.0));
  }

  /** By hand: 30 mL out of 12 mL of hose full of 0.5 bring 12 (1 - 12 / 120) = 10.8 mL of it. */
  @Test
  void aCupThatMayNotBeFedWaitsUntilOthersHaveClearedTheHose() {
    Story story = dry(dry(atHose(), "A2", 0.65), "A1", 0.30);
    fill(story);
    Advice first = story.look();
    assertEquals("A1", first.passes().get(0).cup());
    assertEquals("forecast", first.passes().get(0).why());
    assertEquals(0.5 * 10.8 / 30.0, first.passes().get(0).strength(), 1e-3);
    assertEquals("A2", first.passes().get(1).cup());
    assertTrue(nMgPerL(first.passes().get(1)) <= 5.0, first.passes().get(1).toString());
    Advice next = story.wait(TICK).look();
    assertTrue(next.cups().get("A1").fed() > 0.0, "what left the drip end counts");
  }

  /** By hand: x mL leave 3² u / (4 x (x + u)) of 0.5 in u = 5 mL; 4 mg/L / 1.3 asks 8.4 mL. */
  @Test
  void noMorePlainWaterThanClearsTheHoseGoesIntoAFedCup() {
    Story story = dry(dry(morning("hose: 3 mL"), "A2", 0.65), "A1", 0.30);
    fill(story);
    Advice first = story.look();
    assertEquals("A1", first.passes().get(0).cup());
    assertEquals(8.4, first.passes().get(0).plainMl(), 0.3);
    assertEquals("A2", first.passes().get(1).cup());
    assertTrue(nMgPerL(first.passes().get(1)) <= 5.0, first.passes().get(1).toString());
  }

  @Test
  void withNobodyToClearItItWaitsForTwoHoursAndThenThatIsTold() {
    Story story = dry(atHose(), "A2", 0.65);
    fill(story);
    Advice first = story.look();
    assertEquals(List.of(), first.passes());
    assertEquals("hose", first.cups().get("A2").checks().get(0));
    story.run(Duration.ofMinutes(115));
    assertEquals(List.of(), story.passes);
    assertFalse(story.raised("tank-unsuited"));
    Advice later = story.wait(TICK).look();
    assertEquals("A2", later.passes().get(0).cup());
    assertTrue(nMgPerL(later.passes().get(0)) > 5.0);
    assertTrue(story.raised("tank-unsuited"));
    assertTrue(
        story.alerts.get(story.alerts.size() - 1).whatToDo().contains("A2"),
        story.alerts.toString());
    assertTrue(story.wait(TICK).look().cups().get("A2").fed() > 0.0, "it is counted");
  }

  @Test
  void aRescueDoesNotWaitAndWhatItCarriesIsTold() {
    Story story = dry(atHose(), "A2", 0.90);
    fill(story);
    Advice first = story.look();
    assertEquals("rescue", first.passes().get(0).why(), "a cup past its dry line");
    double ml = first.passes().get(0).plainMl();
    double left = ml > 6.0 ? 12.0 - 36.0 / ml : ml;
    assertEquals(0.5 * left / ml, first.passes().get(0).strength(), 1e-3);
    assertTrue(story.raised("tank-unsuited"));
    double fed = story.wait(TICK).look().cups().get("A2").fed();
    double availableMl =
        CupFrame.of(story.bench, story.bench.cups().get("A2")).water().availableMl();
    assertEquals(0.5 * left / availableMl, fed, 1e-3, "the ledger counts what it carried");
  }

  @Test
  void aWasteValveClearsItAtOnce() {
    Story story =
        dry(
            new Story(
                Story.BENCH.replace("tanks:", "hose: 12 mL\ndrain: waste\ntanks:"),
                "2027-02-14T08:00:00Z",
                Tick.Rounds.ONE_A_TICK),
            "A2",
            0.65);
    fill(story);
    Advice first = story.look();
    assertEquals("waste", first.passes().get(0).cup());
    assertEquals("flush", first.passes().get(0).why());
    Advice.Pass last = first.passes().get(first.passes().size() - 1);
    assertEquals("A2", last.cup());
    assertTrue(nMgPerL(last) <= 5.0);
  }

  @Test
  void hoseOfNothingIsAsIfThereWereNone() {
    Story with = dry(dry(morning("hose: 0 mL"), "A1", 0.55), "A2", 0.65);
    Story without = dry(dry(morning(""), "A1", 0.55), "A2", 0.65);
    for (int tick = 0; tick < 60; tick++) {
      assertEquals(Json.written(without.wait(TICK).look()), Json.written(with.wait(TICK).look()));
    }
    assertEquals(HoseState.NONE, with.state.hose());
  }

  @Test
  void aStateThatKnewNoHoseIsTakenUp() throws IOException {
    Story story = dry(atHose(), "A2", 0.65);
    story.look();
    var tree = (ObjectNode) Json.MAPPER.valueToTree(story.state);
    tree.remove("hose");
    story.state = Json.MAPPER.treeToValue(tree, BenchState.class);
    assertNull(story.state.hose().content());
    story.wait(TICK).look();
    assertFalse(story.state.hose().content().holdsFeed(), "nothing was ever fed");
  }

  @Test
  void whenAPassMayNotHaveRunTheHoseIsTakenToBeFullOfTheStrongest() {
    Story story = dry(atHose(), "A1", 0.55);
    story.look();
    assertTrue(story.passes.get(0).feedMl() > 0.0);
    var seen =
        new Observation(
            story.at.plus(TICK),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            new TreeMap<>(),
            new TreeMap<>(),
            new TreeMap<>(),
            false,
            false,
            false,
            List.of(),
            true,
            false,
            false);
    Tick.Step step = story.tick.step(story.state, seen);
    assertEquals(6.0, step.state().hose().content().labelMl(), 1e-9);
  }

  private static String prime(String cup, double ml, String more) {
    return "{\"id\":\"p\",\"kind\":\"prime\",\"cup\":\"" + cup + "\",\"ml\":" + ml + more + "}";
  }

  @Test
  void primingFillsTheHoseOverAnEmptyPlaceAndCountsForNoCup() {
    Story story = dry(dry(atHose(), "A1", 0.20), "A2", 0.2);
    story.look();
    Advice done =
        story
            .wait(TICK)
            .look(
                "{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}",
                prime("A1", 24.0, ",\"tank\":\"feed\""));
    assertEquals("A1", done.passes().get(0).cup());
    assertEquals("order", done.passes().get(0).why());
    assertEquals(24.0, done.passes().get(0).feedMl());
    assertEquals(0.0, done.cups().get("A1").fed());
    Receipt told = done.receipts().get(1);
    assertEquals("done", told.outcome());
    assertEquals(10.5 * 0.5, story.state.hose().content().labelMl(), 1e-9);
    assertEquals(List.of(), story.wait(TICK).look().passes());
  }

  @Test
  void primingIsRefusedUnderACupBeyondThreeHosesAndWithALatch() {
    Story story = dry(atHose(), "A1", 0.20);
    Receipt stands = story.look(prime("A1", 24.0, "")).receipts().get(0);
    assertEquals("refused", stands.outcome());
    assertTrue(stands.why().contains("lift it off"), stands.why());
    Receipt much =
        story.wait(TICK).look(prime("A1", 37.0, "").replace("\"p\"", "\"q\"")).receipts().get(0);
    assertEquals("refused", much.outcome());
    assertEquals("ml: at most three hose volumes, 36.0 mL, not 37.0 mL", much.why());
    story.leak = true;
    Receipt leak =
        story
            .wait(TICK)
            .look(
                "{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}",
                prime("A1", 24.0, "").replace("\"p\"", "\"r\""))
            .receipts()
            .get(1);
    assertEquals("refused", leak.outcome());
    assertTrue(leak.why().startsWith("hardware"), leak.why());
  }
}
