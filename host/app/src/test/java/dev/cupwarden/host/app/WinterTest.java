package dev.cupwarden.host.app;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.core.longrun.TestReport;
import dev.cupwarden.host.ingest.Counts;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;

/**
 * A winter of the demo as its grower lives it: two lost scales, a cold week with a night of frost,
 * tanks that nobody fills, and the switch of feed in spring. A build plays its first days; {@code
 * -Dwinter.days=118} plays all of it. What was lived through stands in {@code target/winter.md}.
 */
@Tag("long")
class WinterTest {
  private static final int FIRST_DAYS = 5;

  /** A dead scale is told when nothing was read for 12 min: at the third tick. */
  private static final Duration SOON = Duration.ofMinutes(20);

  /** A scale that tells nothing is told of, be its cup due or not. */
  private static final Duration SILENT = Duration.ofMinutes(100);

  private static final Duration DAY = Duration.ofDays(1);

  /** Rot rises with a day without air, so that long no cup may be past its wet line. */
  private static final double LONGEST_WET_H = 24;

  /** A scale is waited for so long before its cup is watered blind. */
  private static final Duration BLIND_AFTER = Duration.ofHours(6);

  /** Parts of its use that a cup may get in its first blind days: half a refill is ahead of it. */
  private static final double BLIND_PART = 1.5;

  /** The plain water that the winter begins with is told as low long before. */
  private static final Duration PLAIN_LASTS = Duration.ofDays(42);

  /** What a tank without a gauge may be reckoned wrong by: a pump is some percent off. */
  private static final double RECKONED_ML = 60;

  /** What nothing in this winter gives cause for. */
  private static final Set<String> UNCALLED =
      Set.of(
          "dose-short",
          "dose-over",
          "valve-leaking",
          "pump-running-on",
          "board-fault",
          "cups-swapped",
          "cup-away",
          "leak",
          "clock",
          "store-full",
          "sensor-dead",
          "controller-silent",
          "heat",
          "scale-stuck",
          "scale-noisy",
          "scale-out-of-range");

  @TempDir Path folder;
  private final List<Executable> checks = new ArrayList<>();
  private Winter winter;
  private WinterTold told;

  @Test
  void theGrowerIsToldInTimeAndEveryCupStaysInItsBand() throws Exception {
    int days = Integer.getInteger("winter.days", FIRST_DAYS);
    long began = System.nanoTime();
    winter = new Winter(folder, Duration.ofDays(days));
    try {
      winter.await(Duration.ofMinutes(10 + days));
      told = new WinterTold(winter.page().events(winter.begins(), winter.ended().plusSeconds(1)));
      Duration took = Duration.ofNanos(System.nanoTime() - began);
      nothingIsMissingOrDouble();
      noLimitIsBroken();
      noAlertWithoutCause();
      lostScale("C2", Winter.C2_DARK, Winter.C2_MENDED);
      lostScale("B1", Winter.B1_DARK, winter.ended());
      otherCupsStayInBand();
      coldWeek();
      emptyTanks();
      springSwitch();
      write(took);
      assertAll(checks);
    } finally {
      winter.close();
    }
  }

  private void check(String what, Executable check) {
    checks.add(
        () -> {
          try {
            check.execute();
          } catch (AssertionError failed) {
            throw new AssertionError(what + ": " + failed.getMessage(), failed);
          }
        });
  }

  private boolean reached(Instant at) {
    return !winter.ended().isBefore(at);
  }

  private void nothingIsMissingOrDouble() {
    check(
        "numbers",
        () -> {
          assertEquals(1, told.all().stream().map(event -> event.get("epoch")).distinct().count());
          for (int i = 0; i < told.all().size(); i++) {
            assertEquals(i + 1, told.all().get(i).get("seq").asLong());
          }
        });
    check("passes", () -> assertEquals(winter.truth().passes(), told.of("dose").size()));
    check(
        "set aside",
        () -> {
          Counts counts = winter.host().counts();
          assertEquals(0, counts.malformed() + counts.passedOver());
        });
    check("orders", () -> assertEquals(List.of(), winter.grower().refused()));
  }

  private void noLimitIsBroken() {
    check(
        "limits",
        () ->
            assertEquals(
                List.of(), new WinterReferee(winter.bench()).judge(told.all(), winter.truth())));
  }

  private void noAlertWithoutCause() {
    check(
        "uncalled",
        () -> {
          List<String> uncalled =
              told.of("alert").stream()
                  .filter(event -> UNCALLED.contains(event.at("/data/code").asText()))
                  .map(JsonNode::toString)
                  .toList();
          assertEquals(List.of(), uncalled);
        });
  }

  /** Told at once and within a day; then watered by what it must have lost, or by rations. */
  private void lostScale(String cup, Instant dark, Instant mended) {
    Instant blindFrom = dark.plus(BLIND_AFTER);
    Instant rationTo = dark.plus(DAY.multipliedBy(4));
    if (reached(dark.plus(SILENT))) {
      check("lost scale " + cup, () -> within("scale-silent", cup, "raised", dark, SILENT));
      check(
          "before it is blind " + cup,
          () -> assertEquals(List.of(), told.doses(cup, dark.plus(SOON), blindFrom)));
    }
    if (reached(dark.plus(DAY).plus(SOON))) {
      check("blind told " + cup, () -> within("blind-ration", cup, "raised", blindFrom, DAY));
    }
    if (reached(rationTo.plus(SOON))) {
      double useMlPerD = winter.truth().usePerDayMl(cup, dark);
      check(
          "given blind " + cup,
          () -> {
            List<JsonNode> given = told.doses(cup, blindFrom, rationTo.plus(SOON));
            double ml = given.stream().mapToDouble(WinterTold::ml).sum();
            assertTrue(ml <= 4 * BLIND_PART * useMlPerD, ml + " mL of " + useMlPerD + " mL/d");
          });
      check(
          "still told " + cup,
          () -> {
            Optional<Instant> cleared = told.first("scale-silent", cup, "cleared", dark);
            Instant dead = winter.truth().dead(cup);
            Instant until = dead == null ? mended : dead;
            assertTrue(cleared.isEmpty() || !cleared.get().isBefore(until), "cleared " + cleared);
          });
      check(
          "near dry told " + cup,
          () -> {
            for (WinterTruth.Spell dry : winter.truth().dry(cup)) {
              Instant near = told.first("near-dry", cup, "raised", dark).orElse(Instant.MAX);
              assertTrue(near.isBefore(dry.from()), "dry " + dry + ", told " + near);
            }
          });
    }
    if (mended.isBefore(winter.ended()) && reached(mended.plus(SOON))) {
      check("mended " + cup, () -> within("scale-silent", cup, "cleared", mended, SOON));
    }
  }

  private void otherCupsStayInBand() {
    for (String cup : new TreeSet<>(winter.bench().cups().keySet())) {
      if (cup.equals("C2") || cup.equals("B1")) {
        continue;
      }
      check("alive " + cup, () -> assertEquals(null, winter.truth().dead(cup)));
      check("dry " + cup, () -> assertEquals(List.of(), winter.truth().dry(cup)));
      check(
          "wet " + cup,
          () -> {
            for (WinterTruth.Spell spell : winter.truth().wet(cup)) {
              assertTrue(spell.hours() <= LONGEST_WET_H, spell.toString());
            }
          });
    }
  }

  private void coldWeek() {
    if (!reached(WinterRoom.COLD_TO.plus(DAY))) {
      return;
    }
    check("cold", () -> within("cold", null, "raised", WinterRoom.COLD_FROM, DAY));
    check("frost", () -> within("frost", null, "raised", WinterRoom.FROST_FROM, DAY.dividedBy(4)));
    check("thaw", () -> within("frost", null, "cleared", WinterRoom.FROST_TO, DAY.dividedBy(4)));
    check("warm", () -> within("cold", null, "cleared", WinterRoom.COLD_TO, DAY));
  }

  private void emptyTanks() {
    // The grower fills it at the visit after it was told, a week later at most.
    if (reached(winter.begins().plus(PLAIN_LASTS))) {
      check(
          "plain told before it is empty",
          () -> {
            Instant low = told.first("tank-low", null, "raised", winter.begins()).orElseThrow();
            assertEquals(List.of(), winter.truth().empty("plain"));
            within("tank-low", null, "cleared", low, DAY.multipliedBy(8));
          });
    }
    for (WinterTruth.Spell empty : winter.truth().empty("feed")) {
      check(
          "told before it is empty",
          () ->
              assertTrue(
                  told.stood("tank-low", "feed", empty.from().minus(DAY.multipliedBy(2))),
                  "empty at " + empty.from()));
    }
    if (!reached(Winter.day(Winter.BACK).plus(DAY))) {
      return;
    }
    Instant back = Winter.day(Winter.BACK);
    check(
        "plain water goes on without feed",
        () -> {
          Instant empty =
              winter.truth().empty("feed").stream()
                  .map(WinterTruth.Spell::from)
                  .filter(from -> from.isAfter(Winter.day(Winter.LAST_MIXED)))
                  .findFirst()
                  .orElseThrow();
          double fedMl = feedMl(told.doses(null, empty.plus(SOON), back));
          assertTrue(fedMl <= RECKONED_ML, fedMl + " mL of feed were thought to be there");
          assertTrue(told.doses(null, empty.plus(SOON), back).size() > 0, "no plain water went on");
        });
    check("full again", () -> within("tank-low", null, "cleared", back, DAY));
  }

  private void springSwitch() {
    Instant comes = Winter.day(Winter.SWITCH);
    Instant mixed = Winter.day(Winter.MIXED).plus(Winter.VISIT);
    if (!reached(mixed.plus(DAY))) {
      return;
    }
    check(
        "told ahead",
        () -> within("feed-change", null, "raised", comes.minus(DAY.multipliedBy(7)), SOON));
    check("told on the day", () -> within("tank-unsuited", null, "raised", comes, SOON));
    check("mixed anew", () -> within("tank-unsuited", null, "cleared", mixed, DAY));
    check(
        "told what to do with the old feed",
        () -> {
          String doing =
              told.of("alert").stream()
                  .filter(event -> event.at("/data/code").asText().equals("tank-unsuited"))
                  .filter(event -> !WinterTold.at(event).isBefore(comes))
                  .map(event -> event.at("/data/do").asText())
                  .findFirst()
                  .orElseThrow();
          assertTrue(doing.contains("wants balanced: use up what is in the tank"), doing);
        });
    winter.diary.happened(
        mixed,
        "%.0f mL of the old feed were given since the switch"
            .formatted(feedMl(told.doses(null, comes, mixed))));
    check("water goes on", () -> assertTrue(told.doses(null, comes, mixed).size() > 0));
  }

  private static double feedMl(List<JsonNode> doses) {
    return doses.stream().mapToDouble(event -> event.at("/data/feed_ml").asDouble()).sum();
  }

  private void within(String code, String cup, String state, Instant from, Duration limit) {
    Instant at = told.first(code, cup, state, from).orElse(Instant.MAX);
    assertTrue(!at.isAfter(from.plus(limit)), code + " " + state + " at " + at);
  }

  private void write(Duration took) throws Exception {
    told.news().forEach(event -> winter.diary.told(WinterTold.at(event), event.get("data")));
    String said =
        "%s to %s, %d events at the host.%n%n%s%n%s%n"
            .formatted(
                winter.begins(),
                winter.ended(),
                told.all().size(),
                winter.diary.table(),
                winter.truth().told());
    if (reached(Winter.day(Winter.MIXED).plus(DAY))) {
      TestReport.put("A winter of the demo's bench, host and all", took, said);
    }
    Files.writeString(Path.of("target", "winter.md"), said);
    StringBuilder all = new StringBuilder();
    told.all().forEach(event -> all.append(event).append('\n'));
    Files.writeString(Path.of("target", "winter-events.jsonl"), all);
  }
}
