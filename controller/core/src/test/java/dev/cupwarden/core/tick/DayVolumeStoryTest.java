package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.state.BenchState;
import java.time.Duration;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** No cup is watered without end, and none is locked out for that. */
class DayVolumeStoryTest {
  private static final double AVAILABLE_ML = TrueWater.AVAILABLE_ML;

  @Test
  void boneDryCupIsBelowDueWithinADayOfOpenWindow() {
    TrueWater water = new TrueWater(1, 0.30, 1.2);
    water.run(Duration.ofDays(5));
    String hold = "{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-28T00:00:00Z\"}";
    water.look(hold);
    for (int hour = 0; hour < 24 * 20 && water.depletion("A1") < 0.96; hour++) {
      water.run(Duration.ofHours(1));
    }
    water.rateGPerH.put("A1", 0.0);
    water.run(Duration.ofDays(4));
    assertEquals(0.96, water.depletion("A1"), 0.01);
    double givenMl = water.story.givenMl("A1");
    water.look("{\"id\":\"r\",\"kind\":\"release\"}");
    water.run(Duration.ofHours(24));
    double tookMl = water.story.givenMl("A1") - givenMl;
    assertTrue(water.depletion("A1") < TrueWater.DUE, () -> "still at " + water.depletion("A1"));
    assertTrue(tookMl <= (0.97 - TrueWater.REFILL) * AVAILABLE_ML, "no more than it had room for");
  }

  @Test
  void personsDoseForABoneDryCupIsGiven() {
    TrueWater water = new TrueWater(1, 0.96, 0.0);
    water.look("{\"id\":\"h\",\"kind\":\"hold\",\"until\":\"2027-02-28T00:00:00Z\"}");
    water.run(Duration.ofDays(4));
    Advice given = water.look("{\"id\":\"r\",\"kind\":\"release\"}", dose("d", 60));
    assertEquals("taken", given.receipts().get(1).outcome());
    water.run(Duration.ofHours(3));
    assertTrue(water.story.givenMl("A1") >= 55.0);
  }

  private static String dose(String id, int ml) {
    return String.format(
        "{\"id\":\"%s\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":%d,\"strength\":0,"
            + "\"lift\":[\"window\"]}",
        id, ml);
  }

  /** A person who told of far more than was given leaves the cup its half room a day. */
  @Test
  void dryCupHasHalfOfItsRoomOnceADayWhateverIsCounted() {
    TrueWater water = new TrueWater(1, 0.90, 0.0);
    water.look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":2000}");
    water.run(Duration.ofHours(10));
    double roomMl = (0.90 - TrueWater.REFILL) * AVAILABLE_ML;
    double firstMl = water.story.givenMl("A1");
    assertEquals(roomMl / 2.0, firstMl, 8.0);
    assertTrue(water.depletion("A1") < TrueWater.DRY);
  }

  @Test
  void cupPastDueAfterItsRescueIsWateredAtOnceWhenTheWindowOpens() {
    TrueWater water = new TrueWater(1, 0.95, 0.6);
    water.run(Duration.ofHours(7));
    double atNight = water.depletion("A1");
    assertEquals(0.95 - 0.45, atNight, 0.06, "half of its room by night");
    water.run(Duration.ofHours(8));
    assertTrue(water.depletion("A1") < 0.15, () -> "still at " + water.depletion("A1"));
  }

  @Test
  void cupThatUsesItsWholeRoomTwiceADayIsKeptInItsBand() {
    double roomMl = (TrueWater.DUE - TrueWater.REFILL) * AVAILABLE_ML;
    TrueWater water = new TrueWater(1, 0.30, 2.0 * roomMl / 24.0);
    water.run(Duration.ofDays(3));
    water.watch();
    double givenMl = water.story.givenMl("A1");
    water.run(Duration.ofDays(10));
    double needMl = 20.0 * roomMl;
    double tookMl = water.story.givenMl("A1") - givenMl;
    assertFalse(water.told("A1"));
    assertEquals(needMl, tookMl, roomMl);
    assertTrue(water.least > 0.0, () -> "too wet: " + water.least);
  }

  @Test
  void benchWhosePumpGivesThreeQuartersReachesItsRefillLines() {
    TrueWater water = new TrueWater(5, 0.30, 1.2);
    water.trueG.keySet().forEach(cup -> water.story.arrives.put(cup, 0.75));
    water.run(Duration.ofDays(8));
    double reached = Double.POSITIVE_INFINITY;
    water.watch();
    double givenMl = 0.75 * water.story.givenMl("A1");
    double before = water.depletion("A1");
    for (int hour = 0; hour < 24 * 20; hour++) {
      water.run(Duration.ofHours(1));
      reached = Math.min(reached, water.depletion("A1"));
    }
    double needMl = 1.2 * 24 * 20 + (before - water.depletion("A1")) * AVAILABLE_ML;
    double tookMl = 0.75 * water.story.givenMl("A1") - givenMl;
    assertEquals(TrueWater.REFILL, reached, 0.04);
    assertTrue(water.most < TrueWater.DRY, () -> "dry: " + water.most);
    assertEquals(needMl, tookMl, 5.0);
    assertFalse(water.told("A1"));
  }

  @Test
  void mixThatKeepsAThirdIsNotGivenWithoutEndNorLeftToDry() {
    TrueWater water = new TrueWater(5, 0.30, 0.5);
    water.run(Duration.ofDays(6));
    water.story.arrives.put("A1", 0.33);
    water.watch();
    double givenMl = water.story.givenMl("A1");
    water.run(Duration.ofDays(20));
    double tookMl = water.story.givenMl("A1") - givenMl;
    // A fifth more than it lost, and of what is ordered half counts at least.
    assertTrue(tookMl <= 1.2 / 0.5 * 0.5 * 24 * 20, () -> tookMl + " mL");
    assertTrue(water.most < TrueWater.DRY, () -> "dry: " + water.most);
    assertFalse(water.told("A1"));
  }

  /** 0.60 to 0.30 in some ten days, 29 mL at a time before. */
  @Test
  void slowStruckCupThatIsDueGoesToItsRefillLine() {
    Story story = Story.from("2027-02-01T00:00:00Z").with("A2", 152.0);
    story.rateGPerH.put("A2", 0.123);
    double lowest = Double.POSITIVE_INFINITY;
    for (int hour = 0; hour < 24 * 60; hour++) {
      Advice advice = story.run(Duration.ofHours(1));
      double depletion = advice.cups().get("A2").depletion();
      lowest = hour < 24 * 20 ? lowest : Math.min(lowest, depletion);
    }
    assertEquals(0.30, lowest, 0.06);
  }

  /** Whatever was told, given or lost: past its dry line a cup has half of its room in a day. */
  @Test
  void noCupPastItsDryLineIsLeftWithoutHalfOfItsRoom() {
    SplittableRandom random = new SplittableRandom(16);
    for (int trial = 0; trial < 60; trial++) {
      TrueWater water = new TrueWater(1, 0.10 + 0.3 * random.nextDouble(), 0.5);
      water.run(Duration.ofHours(random.nextInt(72)));
      int watered = random.nextInt(3000);
      water.look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":" + (1 + watered) + "}");
      water.story.arrives.put("A1", 0.25 + 0.75 * random.nextDouble());
      water.rateGPerH.put("A1", 0.0);
      double dry = 0.76 + 0.23 * random.nextDouble();
      water.trueG.put("A1", TrueWater.massG(dry));
      water.run(Duration.ofHours(1));
      double beforeMl = water.story.givenMl("A1");
      water.run(Duration.ofHours(24));
      double halfMl = (dry - TrueWater.REFILL) * AVAILABLE_ML / 2.0;
      double tookMl = water.story.givenMl("A1");
      boolean wetter = water.depletion("A1") <= TrueWater.DRY;
      assertTrue(
          wetter || tookMl - beforeMl >= 0.8 * halfMl,
          () -> (tookMl - beforeMl) + " of " + halfMl + " mL at " + dry);
    }
  }

  @Test
  void stateThatAnOlderProgramKeptIsGoneOnWith() throws Exception {
    TrueWater water = new TrueWater(2, 0.45, 1.2);
    water.run(Duration.ofHours(12));
    assertTrue(water.story.givenMl("A1") > 0.0);
    ObjectNode kept = Json.MAPPER.valueToTree(water.story.state);
    for (JsonNode cup : kept.get("cups")) {
      ((ObjectNode) cup).remove("account");
      for (JsonNode given : cup.get("doses").get("given")) {
        ((ObjectNode) given).remove("by_hand");
      }
    }
    water.story.state = Json.MAPPER.treeToValue(kept, BenchState.class);
    water.run(Duration.ofDays(6));
    assertTrue(water.most < 0.60, () -> "dry: " + water.most);
    assertTrue(water.least > 0.0, () -> "wet: " + water.least);
  }
}
