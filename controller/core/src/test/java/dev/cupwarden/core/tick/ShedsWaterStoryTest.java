package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import java.time.Duration;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A mix so dry that seven tenths of each pass run down between it and the cup. */
class ShedsWaterStoryTest {
  private static final double STAYS = 0.3;
  private static final Duration HOURS = Duration.ofHours(6);
  private static final String DRAINED = "{'id':'d-1','kind':'drained','cup':'A1','sure':true}";
  private static final String WATERED =
      "{'id':'w-1','kind':'watered','cup':'A1','ml':100,'strength':0}";
  private final Story story = Story.from("2027-02-14T08:00:00Z").with("A1", 230.0);

  @BeforeEach
  void threePassesRunThrough() {
    story.rateGPerH.put("A1", 0.3);
    story.arrives.put("A1", STAYS);
    story.look();
    story.run(HOURS);
  }

  private static String order(String written) {
    return written.replace('\'', '"');
  }

  private boolean held() {
    return story.look().cups().get("A1").checks().contains("sheds-water");
  }

  @Test
  void threePassesAreTriedAndThenAPersonIsTold() {
    assertEquals(3, story.passes.size());
    assertTrue(story.raised("sheds-water"));
    assertTrue(held());
    story.run(Duration.ofDays(2));
    assertEquals(3, story.passes.size(), "told daily, and nothing is pumped into the tray");
    assertEquals(
        3, story.alerts.stream().filter(each -> each.code().equals("sheds-water")).count());
  }

  /** By night at most half of its room comes, so the other half is for who soaks it. */
  @Test
  void rescueOfAShedCupIsHalfARefill() {
    story.with("A1", 180.0);
    double roomMl = 330.0 - 180.0;
    int before = story.passes.size();
    story.run(HOURS);
    assertTrue(story.passes.size() > before);
    assertTrue(story.passes.stream().skip(before).allMatch(pass -> pass.why().equals("rescue")));
    assertTrue(
        story.passes.stream().skip(before).mapToDouble(Advice.Pass::plainMl).sum() <= roomMl);
  }

  /** Nothing but feed in the tanks: a dry death is worse than a little weak feed on dry roots. */
  @Test
  void rescueWithFeedAloneIsHalfARefillOfWeakFeed() {
    String feedAlone =
        Story.BENCH
            .replaceAll("  plain: [^\\n]*\\n", "")
            .replaceAll("    plain: \\{gpio[^\\n]*\\n", "")
            .replace("feed: leafy, strength: 0.5", "feed: leafy, strength: 0.25");
    Story fed = new Story(feedAlone, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    fed.with("A1", 262.1).arrives.put("A1", STAYS);
    fed.rateGPerH.put("A1", 0.3);
    fed.look();
    fed.run(HOURS);
    assertTrue(fed.raised("sheds-water"));
    int before = fed.passes.size();
    fed.with("A1", 180.0).run(HOURS);
    assertTrue(fed.passes.size() > before);
    assertTrue(
        fed.passes.stream()
            .skip(before)
            .allMatch(pass -> pass.why().equals("rescue") && pass.strength() <= 0.25));
    assertTrue(
        fed.passes.stream().skip(before).mapToDouble(Advice.Pass::feedMl).sum() <= 330.0 - 180.0);
  }

  @Test
  void soakedAndDrainedItIsWateredAgain() {
    story.arrives.put("A1", 1.0);
    story.with("A1", 340.0).look();
    story.run(Duration.ofHours(1));
    story.look(order(DRAINED));
    story.run(Duration.ofMinutes(40));
    assertFalse(held());
    assertTrue(story.cleared("sheds-water"));
  }

  @Test
  void wateredByHandItIsWateredAgain() {
    story.look(order(WATERED));
    assertFalse(held());
  }

  /** The feed of a pass counts as far as the weight shows that it stayed. */
  @Test
  void ledgerCountsWhatStayed() {
    double fed =
        story.state.cups().get("A1").doses().given().stream()
            .mapToDouble(given -> given.strength() * given.ml())
            .sum();
    double ordered =
        story.passes.stream().mapToDouble(p -> p.strength() * (p.plainMl() + p.feedMl())).sum();
    assertEquals(STAYS * ordered, fed, 0.1 * STAYS * ordered);
  }

  /** Past its dry line it keeps a twentieth of a pass: no valve is shut that brings so much. */
  @Test
  void mixThatKeepsHardlyAnyOfItShedsWaterAndHasNoShutValve() {
    Story dried = Story.from("2027-02-14T08:00:00Z").with("A1", 150.0);
    dried.rateGPerH.put("A1", 0.1);
    dried.arrives.put("A1", 0.05);
    dried.look();
    dried.run(Duration.ofDays(1));
    assertTrue(dried.raised("sheds-water"));
    assertFalse(dried.raised("dose-short"));
  }

  @Test
  void dryCupThatGetsNothingAtAllHasAShutValve() {
    Story dried = Story.from("2027-02-14T08:00:00Z").with("A1", 150.0);
    dried.rateGPerH.put("A1", 0.1);
    dried.arrives.put("A1", 0.0);
    dried.look();
    dried.run(Duration.ofDays(1));
    assertTrue(dried.raised("dose-short"));
    assertFalse(dried.raised("sheds-water"));
  }
}
