package dev.cupwarden.core.tick;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.messages.Advice;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.RootStage;
import java.time.Duration;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Whatever a bench goes through, no pass breaks a limit. The numbers are those of the bench. */
class NoPassBreaksALimitPropertiesTest {
  private static final Duration TICK = Duration.ofMinutes(5);
  private static final double PASS_ML = 30.0;
  private static final double A1_WET_G = 449.784;
  private static final double A1_TENTH_ML = 32.3313;
  private static final double A2_WET_G = 249.495;
  private static final double A2_TENTH_ML = 19.1800;

  private final Map<String, Instant> lastPassAt = new HashMap<>();
  private Instant heldUntil = Instant.MIN;

  @Property(tries = 150)
  void noSequenceOfInputsMakesAPassThatBreaksALimit(@ForAll long seed) {
    Random random = new Random(seed);
    Story story = begin(random);
    lastPassAt.clear();
    heldUntil = Instant.MIN;
    for (int tick = 0; tick < 400; tick++) {
      story.wait(TICK);
      disturb(story, random);
      String[] orders = orders(story, random, tick);
      double airC = story.airC;
      Map<String, Double> before = Map.copyOf(story.massG);
      Advice advice = story.look(orders);
      for (Advice.Pass pass : advice.passes()) {
        judge(story, pass, before.get(pass.cup()), airC);
      }
      advice.cups().forEach((cup, report) -> assertTrue(report.fed() <= 1.0 + 1e-6, cup));
    }
  }

  /** Found once: 95 mL at a time, while one reading out of line made the weight unsure. */
  @Example
  void anUnsureWeightMakesNoLargerPass() {
    noSequenceOfInputsMakesAPassThatBreaksALimit(-144);
    noSequenceOfInputsMakesAPassThatBreaksALimit(-70920);
  }

  private static Story begin(Random random) {
    Story story =
        Story.from("2027-02-14T06:00:00Z")
            .with("A1", 180 + 230 * random.nextDouble())
            .with("A2", 100 + 130 * random.nextDouble());
    story.rateGPerH.put("A1", 0.5 + 4 * random.nextDouble());
    story.rateGPerH.put("A2", 0.2 + 2 * random.nextDouble());
    story.airC = 20.0;
    return story;
  }

  /** Lifts, faults, floods, frost and water that goes elsewhere. */
  private static void disturb(Story story, Random random) {
    if (random.nextInt(60) == 0) {
      String cup = random.nextBoolean() ? "A1" : "A2";
      story.with(
          cup,
          switch (random.nextInt(4)) {
            case 0 -> 0.2;
            case 1 -> 3000.0;
            case 2 -> 120 + 300 * random.nextDouble();
            default -> story.massG.get(cup) + 60 * random.nextDouble();
          });
    }
    if (random.nextInt(80) == 0) {
      story.airC = random.nextBoolean() ? 1.0 : 20.0;
    }
    if (random.nextInt(100) == 0) {
      story.arrives.put("A1", random.nextDouble() * 1.3);
    }
  }

  private String[] orders(Story story, Random random, int tick) {
    String id = "o-" + tick;
    return switch (random.nextInt(60)) {
      case 0 -> {
        Instant until = story.at.plus(Duration.ofHours(2));
        heldUntil = until.isAfter(heldUntil) ? until : heldUntil;
        yield one("{\"id\":\"%s\",\"kind\":\"hold\",\"until\":\"%s\"}".formatted(id, until));
      }
      case 1 ->
          one(
              "{\"id\":\"%s\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":80,\"strength\":0.5,\"lift\":[\"window\",\"no-dry-back\"]}"
                  .formatted(id));
      case 2 ->
          one(
              "{\"id\":\"%s\",\"kind\":\"dose\",\"cup\":\"A2\",\"ml\":40,\"strength\":0.0,\"lift\":[\"cold\"]}"
                  .formatted(id));
      case 3 ->
          one(
              "{\"id\":\"%s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"white\"}"
                  .formatted(id));
      case 4 -> one("{\"id\":\"%s\",\"kind\":\"clear\"}".formatted(id));
      default -> new String[0];
    };
  }

  private static String[] one(String order) {
    return new String[] {order};
  }

  private void judge(Story story, Advice.Pass pass, double beforeG, double airC) {
    double ml = pass.plainMl() + pass.feedMl();
    boolean first = pass.cup().equals("A1");
    String told = story.at + " " + pass + " at " + beforeG + " g";
    assertTrue(ml <= PASS_ML + 1e-9 && ml <= (first ? A1_TENTH_ML : A2_TENTH_ML) + 0.05, told);
    assertTrue(beforeG + ml <= (first ? A1_WET_G : A2_WET_G) + 1.0, told);
    assertTrue(story.at.compareTo(heldUntil) >= 0, "held: " + told);
    assertTrue(airC >= 3.0, "frost: " + told);
    RootStage stage = story.state.cups().get(pass.cup()).setup().stage();
    assertFalse(!stage.takesFeed() && pass.feedMl() > 0.0, "fed too early: " + told);
    assertTrue(pass.strength() <= 0.5 + 1e-9, told);
    Instant last = lastPassAt.put(pass.cup(), story.at);
    assertTrue(
        last == null || Duration.between(last, story.at).toMinutes() >= 12, "no soak: " + told);
  }

  @Property(tries = 20)
  void theSameInputGivesTheSameOutput(@ForAll long seed) throws Exception {
    Story one = begin(new Random(seed));
    Story other = begin(new Random(seed));
    for (int tick = 0; tick < 100; tick++) {
      assertEquals(
          Json.MAPPER.writeValueAsString(one.wait(TICK).look()),
          Json.MAPPER.writeValueAsString(other.wait(TICK).look()));
    }
  }

  @Property(tries = 20)
  void aCupIsDecidedTheSameUnderAnotherName(@ForAll long seed) {
    Random random = new Random(seed);
    double firstG = 180 + 200 * random.nextDouble();
    double secondG = 180 + 200 * random.nextDouble();
    List<Double> ml = ofTwo(firstG, secondG);
    List<Double> swapped = ofTwo(secondG, firstG);
    assertEquals(ml.get(0), swapped.get(1), 1e-9);
    assertEquals(ml.get(1), swapped.get(0), 1e-9);
  }

  /** What two cups alike got in a day, by the order of their names. */
  private static List<Double> ofTwo(double firstG, double secondG) {
    String yaml =
        Story.BENCH.replaceFirst(
            "(?s)\n  A2: .*",
            "\n  B1: {vessel: tall, mix: coir-perlite, plant: vine, struck: 2026-11-14, stage:"
                + " toughened, cutting: 14 g}\n");
    Story story = new Story(yaml, "2027-02-14T08:00:00Z", Tick.Rounds.ONE_A_TICK);
    story.with("A1", firstG).with("B1", secondG);
    story.rateGPerH.put("A1", 1.0);
    story.rateGPerH.put("B1", 1.0);
    story.look();
    story.run(Duration.ofHours(10));
    return List.of(story.givenMl("A1"), story.givenMl("B1"));
  }
}
