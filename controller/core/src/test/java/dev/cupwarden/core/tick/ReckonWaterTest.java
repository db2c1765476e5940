package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.CupStatus;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A1 loses 0.6 g/h, four neighbours 0.3 g/h each, so its share is twice theirs. After five days, of
 * which a share needs four, its scale falls silent.
 */
class ReckonWaterTest {
  private static final double CAPACITY_G = 401.872;
  private static final List<String> NEIGHBOURS = List.of("A3", "A4", "A5", "A6");

  private static Story fiveDays(List<String> neighbours) {
    StringBuilder yaml = new StringBuilder(Story.BENCH);
    for (String cup : neighbours) {
      yaml.append("  ")
          .append(cup)
          .append(": {vessel: tall, mix: coir-perlite, plant: vine, stage: toughened,")
          .append(" cutting: 14 g}\n");
    }
    Story story = new Story(yaml.toString(), "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    neighbours.forEach(cup -> story.with(cup, CAPACITY_G - 10.0).rateGPerH.put(cup, 0.3));
    story.with("A1", CAPACITY_G - 10.0).rateGPerH.put("A1", 0.6);
    story.look();
    story.run(Duration.ofDays(5));
    return story;
  }

  private static CupStatus status(Story story) {
    return story.tick.standing(story.state).statuses().get(0);
  }

  private static double lostG(Story story, Duration time) {
    double beforeG = status(story).massG();
    story.massG.remove("A1");
    story.run(time);
    return beforeG - status(story).massG();
  }

  /** The neighbours' 0.3, 0.45 or 0.15 g/h twice over, for 24 h. */
  @ParameterizedTest(name = "neighbours lose {0} g/h: {1} g in a day")
  @CsvSource({"0.3, 14.4", "0.45, 21.6", "0.15, 7.2"})
  void losesItsShareOfWhatItsNeighboursLose(double gPerH, double lostG) {
    Story story = fiveDays(NEIGHBOURS);
    NEIGHBOURS.forEach(cup -> story.rateGPerH.put(cup, gPerH));
    assertEquals(lostG, lostG(story, Duration.ofHours(24)), 0.1 * lostG);
    assertFalse(status(story).trusted());
  }

  @Test
  void withTooFewNeighboursByWhatItUsedItself() {
    Story story = fiveDays(List.of("A3"));
    story.rateGPerH.put("A3", 2.0);
    assertEquals(14.4, lostG(story, Duration.ofHours(24)), 1.4);
  }

  @Test
  void whatAPersonGivesMeanwhileIsInIt() {
    Story story = fiveDays(NEIGHBOURS);
    double lostG = lostG(story, Duration.ofHours(12));
    double beforeG = status(story).massG();
    story.look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":40,\"strength\":0}");
    assertEquals(7.2, lostG, 0.7);
    assertEquals(beforeG + 40.0, status(story).massG(), 1.0);
  }

  @Test
  void doubtGrowsUntilItIsWeighedAgain() {
    Story story = fiveDays(NEIGHBOURS);
    double trueG = story.massG.get("A1");
    lostG(story, Duration.ofHours(2));
    double sdG = story.state.cups().get("A1").weight().reckoning().water().sdG();
    lostG(story, Duration.ofHours(22));
    double laterG = story.state.cups().get("A1").weight().reckoning().water().sdG();
    assertTrue(laterG > 2 * sdG, laterG + " after " + sdG);
    story.with("A1", trueG - 14.4).run(Duration.ofHours(1));
    assertTrue(status(story).trusted());
    assertEquals(trueG - 15.0, status(story).massG(), 0.5);
  }

  /** What a bare mix loses goes by how wet its top is: three tenths of it are in doubt. */
  @Test
  void aCupWithoutRootsIsInFarGreaterDoubt() {
    Story story = fiveDays(NEIGHBOURS.subList(0, 3));
    story.with("A2", 200.0).rateGPerH.put("A2", 0.3);
    story.run(Duration.ofDays(5));
    story.massG.remove("A2");
    story.massG.remove("A1");
    double a1G = waterG(story, "A1");
    double a2G = waterG(story, "A2");
    story.run(Duration.ofHours(96));
    double lost1G = a1G - waterG(story, "A1") + story.givenMl("A1");
    double lost2G = a2G - waterG(story, "A2") + story.givenMl("A2");
    double sd1 = story.state.cups().get("A1").weight().reckoning().water().sdG() / lost1G;
    double sd2 = story.state.cups().get("A2").weight().reckoning().water().sdG() / lost2G;
    assertEquals(0.30, sd2, 0.02, lost2G + " g");
    assertTrue(sd1 < 0.12, sd1 + " of " + lost1G + " g");
  }

  private static double waterG(Story story, String cup) {
    return story.tick.standing(story.state).statuses().stream()
        .filter(one -> one.cup().equals(cup))
        .findFirst()
        .orElseThrow()
        .massG();
  }
}
