package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.app.link.Waiting;
import dev.cupwarden.core.messages.Json;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The real jar, killed while its pump runs. */
class KilledRunIT {
  private static final Duration SOON = Duration.ofSeconds(90);
  private static final Duration SOAK = Duration.ofMinutes(12);

  /** So long without water that several cups are due at the first tick. */
  private static final String DRY_DAYS = "9";

  /** Half past eight in the bench's zone, on a day of its season: the window has just opened. */
  private static final String MORNING = "2026-11-28T08:30:00Z";

  private static final int KILLS_A_BENCH = 4;

  /** Nobody listens there: watering does not need a broker. */
  private static final String NO_BROKER = "tcp://127.0.0.1:9";

  @TempDir Path folder;

  private ControllerProcess start(String speed) throws Exception {
    return ControllerProcess.start(
        folder,
        "--seed",
        "7",
        "--dried-for",
        DRY_DAYS,
        "--begins",
        MORNING,
        "--speed",
        speed,
        "--broker",
        NO_BROKER);
  }

  private List<JournalExport.Pass> passes() throws JournalException {
    if (!Files.exists(ControllerProcess.journal(folder))) {
      return List.of();
    }
    try (JournalExport journal = JournalExport.open(ControllerProcess.journal(folder))) {
      return journal.passes();
    } catch (JournalException e) {
      if (e.getMessage().contains("has schema 0")) {
        return List.of(); // it is being made at this moment
      }
      throw e;
    }
  }

  private JsonNode state() throws Exception {
    try (JournalExport journal = JournalExport.open(ControllerProcess.journal(folder))) {
      return Json.MAPPER.valueToTree(journal.state().orElseThrow());
    }
  }

  private List<String> starts() throws Exception {
    try (JournalExport journal = JournalExport.open(ControllerProcess.journal(folder))) {
      return journal.starts().stream().map(JournalExport.Start::at).toList();
    }
  }

  @Test
  void passCutOffByAKillCountsAsGivenAndNothingIsGivenTwice() throws Exception {
    try (ControllerProcess run = start("4")) {
      Waiting.until("the pump runs", SOON, () -> !passes().isEmpty());
      run.kill();
    }
    List<JournalExport.Pass> open = passes().stream().filter(p -> p.outcome() == null).toList();
    assertFalse(open.isEmpty(), "killed in its midst");
    JournalExport.Pass cutOff = open.get(0);
    double ml = cutOff.plainMl() + cutOff.feedMl();
    JsonNode given = state().at("/cups/" + cutOff.cup() + "/given");
    assertEquals(ml, given.get(given.size() - 1).get("ml").asDouble(), 0.06, "state counts it");

    int before = passes().size();
    try (ControllerProcess run = start("300")) {
      Waiting.until("more passes", SOON, () -> passes().size() > before + 3);
      assertTrue(run.errors().contains("counts as given"), run.errors());
      assertTrue(run.terminate(), "ends when told to");
    }
    List<JournalExport.Pass> all = passes();
    assertEquals(
        open.stream().map(JournalExport.Pass::cup).toList(),
        all.stream()
            .filter(pass -> "unknown".equals(pass.outcome()))
            .map(JournalExport.Pass::cup)
            .toList());
    Instant restart = Instant.parse(starts().get(1));
    assertFalse(
        Instant.parse(all.get(before).at()).isBefore(restart.plus(SOAK)),
        "one settling period before anything else");
    assertEachPassIsCountedOnceAndSoaked(all);
  }

  private void assertEachPassIsCountedOnceAndSoaked(List<JournalExport.Pass> all) throws Exception {
    JsonNode cups = state().get("cups");
    for (String cup : all.stream().map(JournalExport.Pass::cup).distinct().toList()) {
      List<JournalExport.Pass> own = all.stream().filter(p -> p.cup().equals(cup)).toList();
      JsonNode given = cups.get(cup).get("given");
      assertEquals(own.size(), given.size(), cup + " " + given);
      for (int i = 1; i < own.size(); i++) {
        Instant last = Instant.parse(own.get(i - 1).at());
        assertFalse(Instant.parse(own.get(i).at()).isBefore(last.plus(SOAK)), cup + " soaks");
      }
    }
  }

  /** {@code -Plong} makes it a thousand times; {@code -Dkills.seed=N} kills at other moments. */
  @Test
  void killedAgainAndAgainNothingIsGivenTwiceAndNothingIsLost() throws Exception {
    int kills = Integer.getInteger("kills", 3);
    long seed = Long.getLong("kills.seed", 1);
    SplittableRandom random = new SplittableRandom(seed);
    int done = 0;
    int cutOff = 0;
    int passes = 0;
    // Each bench is killed so often and then left: a year's caps would keep it dry of passes.
    for (int bench = 0; done < kills; bench++) {
      Files.createDirectories(folder.resolve("bench-" + bench));
      Path home = folder;
      folder = home.resolve("bench-" + bench);
      for (int i = 0; i < KILLS_A_BENCH && done < kills; i++, done++) {
        int before = passes().size();
        long nanos = random.nextInt(1_500) * 1_000_000L;
        try (ControllerProcess run = start(i == 0 ? "4" : "600")) {
          Waiting.until("a pass", SOON, () -> passes().size() > before);
          long end = System.nanoTime() + nanos;
          Waiting.until("the moment to kill", SOON, () -> System.nanoTime() >= end);
          run.kill();
        }
        cutOff += (int) passes().stream().filter(pass -> pass.outcome() == null).count();
        assertEachPassIsCountedOnceAndSoaked(passes());
      }
      passes += passes().size();
      folder = home;
    }
    TestReport.put(
        "Killed processes",
        "%,d times `kill -9` of the packaged program on %,d simulated benches, seed %d, each within 1.5 s after a pass began: %,d passes, %,d of them cut off; no pass given twice, none lost."
            .formatted(done, (done + KILLS_A_BENCH - 1) / KILLS_A_BENCH, seed, passes, cutOff));
  }

  @Test
  void toldToEndWhileThePumpRunsItPutsDownWhatRan() throws Exception {
    try (ControllerProcess run = start("1")) {
      Waiting.until("the pump runs", SOON, () -> !passes().isEmpty());
      assertTrue(run.terminate());
    }
    JournalExport.Pass cutShort = passes().get(0);
    assertEquals("failed", cutShort.outcome());
  }
}
