package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.JournalException;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.core.messages.Json;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/** One simulated bench whose program is killed and started again, and what its journal says. */
final class KilledBench {
  static final Duration SOAK = Duration.ofMinutes(12);

  /** So long without water that several cups are due at the first tick. */
  private static final String DRY_DAYS = "9";

  /** Half past eight in the bench's zone, on a day of its season: the window has just opened. */
  private static final String MORNING = "2026-11-28T08:30:00Z";

  /** Nobody listens there: watering does not need a broker. */
  private static final String NO_BROKER = "tcp://127.0.0.1:9";

  private final Path folder;

  KilledBench(Path folder) {
    this.folder = folder;
  }

  ControllerProcess start(String speed) throws Exception {
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

  List<JournalExport.Pass> passes() throws JournalException {
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

  /** How many passes have no outcome yet. */
  int open() throws JournalException {
    return (int) passes().stream().filter(pass -> pass.outcome() == null).count();
  }

  JsonNode state() throws Exception {
    try (JournalExport journal = JournalExport.open(ControllerProcess.journal(folder))) {
      return Json.MAPPER.valueToTree(journal.state().orElseThrow());
    }
  }

  List<String> starts() throws Exception {
    try (JournalExport journal = JournalExport.open(ControllerProcess.journal(folder))) {
      return journal.starts().stream().map(JournalExport.Start::at).toList();
    }
  }

  void assertEachPassIsCountedOnceAndSoaked() throws Exception {
    List<JournalExport.Pass> all = passes();
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
}
