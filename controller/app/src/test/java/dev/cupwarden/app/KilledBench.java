package dev.cupwarden.app;

import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.journal.JournalExport;
import dev.cupwarden.core.messages.Json;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.util.List;

/** One simulated bench whose program is killed and started again, and what its journal says. */
final class KilledBench {
  private static final Duration SOON = Duration.ofSeconds(90);
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

  /** Waits until the running program has begun more passes than so many. */
  void awaitMorePassesThan(int before) throws Exception {
    await("more than " + before + " passes")
        .pollInterval(Duration.ofMillis(20))
        .atMost(SOON)
        .until(() -> begun() > before);
  }

  /** Passes begun as the running program has them, by a look that never holds it up. */
  private int begun() {
    String file = "jdbc:sqlite:file:" + ControllerProcess.journal(folder) + "?mode=ro";
    try (Connection look = DriverManager.getConnection(file);
        Statement statement = look.createStatement();
        ResultSet count = statement.executeQuery("SELECT count(*) FROM pass")) {
      return count.getInt(1);
    } catch (SQLException e) {
      return 0; // it is being made, or taken up after a kill, at this moment
    }
  }

  /** The journal as the program left it; a copy, so that the program itself has to take it up. */
  private JournalExport left() throws Exception {
    Path copy = Files.createDirectories(folder.resolve("copy")).resolve("journal.db");
    Files.deleteIfExists(Path.of(copy + "-shm"));
    for (String end : List.of("", "-wal")) {
      Path file = Path.of(ControllerProcess.journal(folder) + end);
      Files.deleteIfExists(Path.of(copy + end));
      if (Files.exists(file)) {
        Files.copy(file, Path.of(copy + end));
      }
    }
    return JournalExport.open(copy);
  }

  /** Its passes when the program has ended; none before it first ran. */
  List<JournalExport.Pass> passes() throws Exception {
    if (!Files.exists(ControllerProcess.journal(folder))) {
      return List.of();
    }
    try (JournalExport journal = left()) {
      return journal.passes();
    }
  }

  /** How many passes have no outcome yet. */
  int open() throws Exception {
    return (int) passes().stream().filter(pass -> pass.outcome() == null).count();
  }

  JsonNode state() throws Exception {
    try (JournalExport journal = left()) {
      return Json.MAPPER.valueToTree(journal.state().orElseThrow());
    }
  }

  List<String> starts() throws Exception {
    try (JournalExport journal = left()) {
      return journal.starts().stream().map(JournalExport.StartEntry::at).toList();
    }
  }

  void assertEachPassIsCountedOnceAndSoaked() throws Exception {
    List<JournalExport.Pass> all = passes();
    JsonNode cups = state().get("cups");
    for (String cup : all.stream().map(JournalExport.Pass::cup).distinct().toList()) {
      List<JournalExport.Pass> own = all.stream().filter(p -> p.cup().equals(cup)).toList();
      JsonNode given = cups.get(cup).get("doses").get("given");
      assertEquals(own.size(), given.size(), cup + " " + given);
      for (int i = 1; i < own.size(); i++) {
        Instant last = Instant.parse(own.get(i - 1).at());
        assertFalse(Instant.parse(own.get(i).at()).isBefore(last.plus(SOAK)), cup + " soaks");
      }
    }
  }
}
