package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Receipt;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.setup.RootStage;
import dev.cupwarden.core.state.CupState;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/** One order to several cups: done to all of them or to none, and the receipt tells each. */
class ManyCupsTest {
  private static Story morning() {
    return Story.from("2027-02-14T08:00:00Z").with("A1", 330.0).with("A2", 202.3);
  }

  private static String order(String fields) {
    return ("{'id':'m','cups':['A1','A2']," + fields + "}").replace('\'', '"');
  }

  private static Receipt only(Advice advice) {
    assertEquals(1, advice.receipts().size(), advice.receipts().toString());
    Receipt receipt = advice.receipts().get(0);
    Schemas.assertFits("receipt", Json.MAPPER.valueToTree(receipt));
    return receipt;
  }

  private static List<Receipt.AtCup> bothAre(String outcome) {
    return List.of(new Receipt.AtCup("A1", outcome, null), new Receipt.AtCup("A2", outcome, null));
  }

  @Test
  void aHoldHoldsEachAndNamesWhoWillBeDry() {
    Story story = morning().with("A2", 110.0);
    Advice held = story.look(order("'kind':'hold','until':'2027-02-24T08:00:00Z'"));
    assertEquals("done", only(held).outcome());
    assertEquals(bothAre("done"), only(held).cups());
    assertEquals(List.of("A1", "A2"), only(held).dryBefore());
    assertTrue(held.cups().get("A1").checks().contains("hold"));
    assertTrue(held.cups().get("A2").checks().contains("hold"));
    Advice released =
        story.wait(Duration.ofMinutes(5)).look(order("'kind':'release'").replace("\"m\"", "\"r\""));
    assertEquals(bothAre("done"), only(released).cups());
    assertFalse(released.cups().get("A1").checks().contains("hold"));
  }

  @Test
  void awayBackStageWateredAndRetireAreDoneToEach() {
    Story story = morning();
    int n = 0;
    for (String fields :
        List.of(
            "'kind':'stage','stage':'circling'",
            "'kind':'watered','ml':20,'strength':0",
            "'kind':'away'",
            "'kind':'back'",
            "'kind':'retire','because':'rooted'")) {
      String order = order(fields).replace("\"m\"", "\"m" + n++ + "\"");
      Advice advice = story.wait(Duration.ofMinutes(5)).look(order);
      assertEquals(bothAre("done"), only(advice).cups(), order);
      if (fields.contains("circling")) {
        assertEquals(RootStage.CIRCLING, advice.cups().get("A2").stage());
      }
    }
    assertTrue(story.state.cups().isEmpty(), "both are taken out");
  }

  @Test
  void oneThatCannotMeansNothingIsDone() {
    Story story = morning();
    Advice refused =
        story.look(
            "{\"id\":\"m\",\"kind\":\"away\",\"cups\":[\"A2\",\"A9\",\"A1\"]}",
            "{\"id\":\"w\",\"kind\":\"watered\",\"cups\":[\"A1\",\"A2\"],\"ml\":900,\"strength\":0}");
    Receipt away = refused.receipts().get(0);
    assertEquals("refused", away.outcome());
    assertTrue(away.why().contains("A9"), away.why());
    assertEquals(3, away.cups().size());
    assertNull(away.cups().get(0).why());
    assertTrue(away.cups().get(2).why().contains("is not on this bench"));
    assertEquals("refused", refused.receipts().get(1).outcome());
    assertFalse(story.state.cups().get("A1").presence().away());
    assertTrue(story.state.cups().get("A1").doses().given().isEmpty());
  }

  @Test
  void aDoseIsGivenToEachAndTheLastTellsItForAll() {
    Story story = morning().with("A2", 135.0);
    Advice taken = story.look(order("'kind':'dose','ml':25,'strength':0"));
    assertEquals("taken", only(taken).outcome());
    assertEquals(bothAre("taken"), only(taken).cups());
    assertEquals(2, taken.passes().size());
    int done = 0;
    int parts = 0;
    for (int tick = 0; tick < 24; tick++) {
      Advice advice = story.wait(Duration.ofMinutes(5)).look();
      for (Receipt receipt : advice.receipts()) {
        assertEquals("m", receipt.id());
        parts += receipt.cups().size();
        done += receipt.outcome().equals("done") ? 1 : 0;
      }
    }
    assertEquals(2, parts, "each cup's end is told");
    assertEquals(1, done, "the order's end is told once");
  }

  @Test
  void aDoseThatALimitForbidsToOneIsGivenToNone() {
    Story story = morning().with("A2", 135.0);
    Advice refused = story.look(order("'kind':'dose','ml':25,'strength':0.25"));
    assertEquals("refused", only(refused).outcome());
    assertTrue(only(refused).why().contains("A2"), only(refused).why());
    assertEquals(2, only(refused).cups().size());
    assertTrue(refused.passes().stream().noneMatch(pass -> pass.why().equals("order")));
    assertTrue(story.state.cups().values().stream().noneMatch(cup -> toMany(cup)));
  }

  private static boolean toMany(CupState cup) {
    return cup.watering().refill() != null && cup.watering().refill().toMany();
  }

  @Test
  void listsThatMakeNoSenseAreRefused() {
    for (String fields :
        List.of(
            "'cups':[],'kind':'away'",
            "'cups':['A1','A1'],'kind':'away'",
            "'cups':'A1','kind':'away'",
            "'cups':[1],'kind':'away'",
            "'cup':'A1','cups':['A2'],'kind':'away'",
            "'cups':['A1'],'kind':'flush','ml':50")) {
      Story story = morning();
      Advice advice = story.look(("{'id':'m'," + fields + "}").replace('\'', '"'));
      assertEquals("refused", only(advice).outcome(), fields);
      assertTrue(only(advice).why().startsWith("cups: "), only(advice).why());
    }
  }
}
