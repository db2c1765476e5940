package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import dev.cupwarden.core.longrun.Fuzz;
import dev.cupwarden.core.longrun.Slips;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.setup.Bench;
import dev.cupwarden.core.setup.BenchTexts;
import dev.cupwarden.core.tick.Tick;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** The real decisions behind {@code advise}, and lines with slips in them. */
@Tag("long")
class AdviseFuzzTest {
  private static final Instant START = Instant.parse("2027-02-14T08:00:00Z");
  private static final int LINES = 8;
  private static final List<String> ORDERS =
      List.of(
          "{\"id\":\"%s\",\"kind\":\"hold\",\"until\":\"2027-02-15T08:00:00Z\",\"rescue\":true}",
          "{\"id\":\"%s\",\"kind\":\"release\"}",
          "{\"id\":\"%s\",\"kind\":\"stage\",\"cup\":\"A2\",\"stage\":\"white\"}",
          "{\"id\":\"%s\",\"kind\":\"repot\",\"cup\":\"A2\",\"vessel\":\"tall\",\"mix\":\"coir-perlite\"}",
          "{\"id\":\"%s\",\"kind\":\"dose\",\"cup\":\"A1\",\"ml\":20,\"strength\":0.25,\"lift\":[\"window\"]}",
          "{\"id\":\"%s\",\"kind\":\"flush\",\"cup\":\"A1\",\"ml\":90}",
          "{\"id\":\"%s\",\"kind\":\"away\",\"cup\":\"A2\"}",
          "{\"id\":\"%s\",\"kind\":\"back\",\"cup\":\"A2\",\"expires\":\"2027-02-15T07:00:00Z\"}",
          "{\"id\":\"%s\",\"kind\":\"add\",\"cup\":\"B1\",\"vessel\":\"tall\",\"mix\":\"coir-perlite\","
              + "\"plant\":\"vine\",\"cutting_g\":14}",
          "{\"id\":\"%s\",\"kind\":\"retire\",\"cup\":\"A1\",\"because\":\"rooted\"}",
          "{\"id\":\"%s\",\"kind\":\"drained\",\"cup\":\"A1\"}");

  private final Bench bench = BenchTexts.backRoomBench();

  @Test
  void everyLineWithASlipGetsOneAnswer() throws Exception {
    Fuzz.of(
        "lines of `advise` with orders",
        "eight lines each, and each line got one answer: advice, or what is wrong in a sentence.",
        random -> {
          StringBuilder input = new StringBuilder();
          for (int i = 0; i < LINES; i++) {
            input.append(slipped(random, line(random, i))).append('\n');
          }
          assertEquals(LINES, answers(input.toString(), false).size());
        });
  }

  @Test
  void everyRowWithASlipGetsOneAnswer() throws Exception {
    Fuzz.of(
        "tables of `advise`",
        "a header and eight rows each, and each row got one answer: advice, or what is wrong.",
        random -> {
          StringBuilder input = new StringBuilder();
          String header = "at,A1,air_c,rh_pct,root_c,light,A2,theta:A1,tank:plain";
          input.append(random.nextInt(4) == 0 ? slipped(random, header) : header).append('\n');
          for (int i = 0; i < LINES; i++) {
            String row =
                "%s,%.1f,20.5,\"48\",19,120,201,0.41,9000"
                    .formatted(START.plusSeconds(300L * i), 250 + 20 * random.nextDouble());
            input.append(slipped(random, row)).append('\n');
          }
          int answers = answers(input.toString(), true).size();
          // A header gets an answer of its own only where it is wrong.
          assertEquals(LINES, Math.min(LINES, answers));
          assertFalse(answers > LINES + 1);
        });
  }

  /** One line still: what would end it is left out. */
  private static String slipped(SplittableRandom random, String good) {
    String text = random.nextInt(3) == 0 ? good : new Slips(random).in(good);
    return text.replaceAll("[\\n\\r]", "").isBlank() ? "x" : text.replaceAll("[\\n\\r]", "");
  }

  private static String line(SplittableRandom random, int i) {
    String order = ORDERS.get(random.nextInt(ORDERS.size())).formatted("o-" + i);
    String ordered = random.nextBoolean() ? order : new Slips(random).in(order);
    return ("{\"at\":\"%s\",\"air_c\":20.5,\"rh_pct\":48,\"root_c\":19.0,\"light\":120,"
            + "\"mass_g\":{\"A1\":%.1f,\"A2\":202.3},\"theta\":{\"A1\":0.41},"
            + "\"tank_ml\":{\"plain\":9000,\"feed\":2500},\"leak\":false,\"orders\":[%s]}")
        .formatted(START.plusSeconds(300L * i), 240 + 40 * random.nextDouble(), ordered);
  }

  private List<String> answers(String input, boolean csv) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JsonSession.of(bench, new TickAdviser(new Tick(bench)), true, csv)
        .run(new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)), out);
    List<String> answers = out.toString(StandardCharsets.UTF_8).lines().toList();
    for (String answer : answers) {
      Json.MAPPER.readTree(answer);
      assertFalse(answer.contains("a fault of the program"), answer);
    }
    return answers;
  }
}
