package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.CupActivity;
import dev.cupwarden.core.messages.CupStatus;
import dev.cupwarden.core.messages.Decision;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What is told of A1, which weighs 401.872 g at capacity and has 271.754 mL that it can take
 * (CupWaterTest): toughened, so its lines are 0.05, 0.50 and 0.75.
 */
class ReportTest {
  private static final double CAPACITY_G = 401.872;
  private static final double AVAILABLE_ML = 271.754;

  private static Story holding(double depletion, String at) {
    return Story.from(at).with("A1", CAPACITY_G - depletion * AVAILABLE_ML);
  }

  private static CupStatus status(Story story) {
    return story.tick.standing(story.state).statuses().stream()
        .filter(one -> one.cup().equals("A1"))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void figuresOfASteadyCup() {
    Story story = holding(0.40, "2027-02-14T20:00:00Z");
    story.look();
    CupStatus status = status(story);
    assertEquals(CAPACITY_G, status.capacityG(), 0.01);
    assertEquals(AVAILABLE_ML, status.availableMl(), 0.01);
    assertEquals(CAPACITY_G - 0.40 * AVAILABLE_ML, status.massG(), 0.01);
    assertEquals(0.40, status.depletion(), 1e-4);
    // The wet line lies at 449.784 g: (401.872 - 449.784) / 271.754.
    assertEquals(-0.1763, status.wet(), 1e-4);
    assertEquals(0.05, status.refill());
    assertEquals(0.50, status.due());
    assertEquals(0.75, status.dry());
    assertEquals(0.35 * AVAILABLE_ML, status.roomMl(), 0.02);
    assertEquals(5.0, status.leastPassMl(), "the least that is worth a valve");
    assertEquals(0.0, status.fed());
    assertTrue(status.trusted());
    assertNull(status.rateGPerH(), "nothing was learned of it");
    assertNull(status.dueAt());
  }

  /**
   * Of 515.6 mL of mix 99.47 are air at 401.872 g, 19.3 %; warm roots are safe from 21 % on where
   * the least is 16 %. Drained at 412 g it holds 10.13 mL less air, 17.3 %; at 382 g 23.1 %.
   */
  @ParameterizedTest(name = "drained at {0} g: {1}")
  @CsvSource({
    ", 0.1929, By mix and vessel it drains to 19 % air",
    "412, 0.1733, By its weight when drained it holds 17 % air",
    "382, , "
  })
  void mixThatDrainsToTooLittleAirIsToldWithItsFigures(
      Double drainedG, Double air, String sentence) {
    String yaml = Story.BENCH.replace("least_air: 0.10", "least_air: 0.16");
    Story story = new Story(yaml, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    if (drainedG == null) {
      story.with("A1", 360.0).look();
    } else {
      story.with("A1", drainedG).look("{\"id\":\"d\",\"kind\":\"drained\",\"cup\":\"A1\"}");
    }
    CupStatus.LittleAir told = status(story).littleAir();
    if (air == null) {
      assertNull(told);
    } else {
      assertEquals(air, told.drained(), 1e-4);
      assertEquals(0.21, told.safe(), 1e-4);
      assertTrue(told.sentence().startsWith(sentence), told.sentence());
      assertTrue(told.sentence().contains("safe from 21 % on"), told.sentence());
    }
  }

  @Test
  void mixWithAirEnoughIsNoMatter() {
    Story story = holding(0.40, "2027-02-14T20:00:00Z");
    story.look();
    assertNull(status(story).littleAir());
  }

  @Test
  void nothingIsKnownOfACupThatWasNeverWeighed() {
    Story story = Story.from("2027-02-14T08:00:00Z");
    story.look();
    CupStatus status = status(story);
    assertNull(status.massG());
    assertNull(status.depletion());
    assertNull(status.roomMl());
    assertNull(status.nextPassMl());
    assertEquals(CupActivity.UNTRUSTED, status.state());
  }

  /** 2 g/h for a day: from 0.10 down 48 g, and 60.7 g more to the due line, 30 h later. */
  @Test
  void rateAndTimesOfACupThatDriesEvenly() {
    Story story = holding(0.10, "2027-02-14T08:00:00Z");
    story.rateGPerH.put("A1", 2.0);
    story.look();
    story.run(Duration.ofHours(24));
    CupStatus status = status(story);
    assertEquals(2.0, status.rateGPerH(), 0.05);
    assertEquals(0.10 + 48.0 / AVAILABLE_ML, status.depletion(), 0.002);
    double toDueG = 0.40 * AVAILABLE_ML - 48.0;
    double toDueH = Duration.between(story.at, status.dueAt()).toMinutes() / 60.0;
    assertEquals(toDueG / 2.0, toDueH, 0.1 * toDueG / 2.0);
    double toDryG = 0.65 * AVAILABLE_ML - 48.0;
    double toDryH = Duration.between(story.at, status.dryAt()).toMinutes() / 60.0;
    assertEquals(toDryG / 2.0, toDryH, 0.1 * toDryG / 2.0);
    assertTrue(status.dryBefore().isBefore(status.dryAt()));
  }

  /** Due at two in the afternoon of the 16th, in a window from eight to four. */
  @Test
  void nextWaterIsDueWaterInOpenHoursAndPastAHold() {
    Story story = holding(0.10, "2027-02-14T08:00:00Z");
    story.rateGPerH.put("A1", 2.0);
    story.look();
    story.run(Duration.ofHours(24));
    Instant due = status(story).dueAt();
    assertEquals(due, status(story).waterAt(), "due within the window");
    String hold = "{\"id\":\"%s\",\"kind\":\"hold\",%s\"until\":\"%s\"}";
    story.look(hold.formatted("h1", "", "2027-02-17T03:00:00Z"));
    assertEquals(Instant.parse("2027-02-17T08:00:00Z"), status(story).waterAt());
    story.look(hold.formatted("h2", "\"cup\":\"A1\",", "2027-02-18T10:30:00Z"));
    assertEquals(Instant.parse("2027-02-18T10:30:00Z"), status(story).waterAt());
    story.look("{\"id\":\"a\",\"kind\":\"away\",\"cup\":\"A1\"}");
    assertNull(status(story).waterAt(), "nobody waters a cup that is away");
  }

  /** By night, when a cup that is only due gets nothing; frost keeps even a rescue back. */
  @ParameterizedTest(name = "depletion {0}, roots {1} °C: {2}")
  @CsvSource({
    "-0.18, 18, WET",
    "-0.17, 18, STEADY",
    "0.4999, 18, STEADY",
    "0.5001, 18, DUE",
    "0.7499, 18, DUE",
    "0.7501, 2, DRY",
    "0.7501, 18, WATERING"
  })
  void whatACupIsDoing(double depletion, double rootC, CupActivity state) {
    Story story = holding(depletion, "2027-02-14T20:00:00Z");
    story.rootC = rootC;
    assertEquals(state, story.look().cups().get("A1").state());
  }

  @Test
  void holdOfTheBenchOrOfTheCupIsTold() {
    Story bench = holding(0.60, "2027-02-14T20:00:00Z");
    String order = "{\"id\":\"h\",\"kind\":\"hold\",%s\"until\":\"2027-02-16T08:00:00Z\"}";
    assertEquals(CupActivity.HELD, bench.look(order.formatted("")).cups().get("A1").state());
    Story cup = holding(0.60, "2027-02-14T20:00:00Z");
    assertEquals(
        CupActivity.HELD, cup.look(order.formatted("\"cup\":\"A1\",")).cups().get("A1").state());
  }

  /** 100 mL of 0.30 mS/cm in 323.313 mL. */
  @Test
  void saltsThatWaterBrought() {
    Story story = holding(0.60, "2027-02-14T20:00:00Z");
    story.look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":100,\"strength\":0}");
    Decision decision = story.tick.standing(story.state).decisions().get("A1");
    assertEquals(100 * 0.30 / 323.313, decision.saltMsPerCm(), 1e-3);
    assertEquals(0.0, decision.fed());
  }

  /**
   * 100 mL at half strength are 50 mL at the label's, of 271.754 mL. A teaspoon of 5.8 g in a US
   * gallon are 1.5322 g/L; half of it adds 0.9576 mS/cm to the water's 0.30, in 100 of 323.313 mL.
   */
  @Test
  void feedOfTheLabelsInterval() {
    Story story = holding(0.60, "2027-02-14T20:00:00Z");
    story.look("{\"id\":\"w\",\"kind\":\"watered\",\"cup\":\"A1\",\"ml\":100,\"strength\":0.5}");
    Decision decision = story.tick.standing(story.state).decisions().get("A1");
    assertEquals(50.0 / AVAILABLE_ML, decision.fed(), 1e-4);
    assertEquals(1.2576 * 100 / 323.313, decision.saltMsPerCm(), 1e-3);
  }
}
