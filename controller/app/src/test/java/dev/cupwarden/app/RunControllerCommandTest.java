package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.DriverManager;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is refused before anything runs: one sentence, and 2. */
class RunControllerCommandTest {
  private final CommandRun command = CommandRun.apart();
  private final StringWriter err = command.err;
  @TempDir Path folder;
  private Path bench;
  private String text;

  @BeforeEach
  void benchFile() throws Exception {
    bench = folder.resolve("bench.yaml");
    text = BackRoom.text();
    Files.writeString(bench, text);
  }

  private int runSimulated(String... more) {
    return command.execute(
        List.of(
            "run", "--simulate", "--bench", bench.toString(), "--journal", folder + "/journal.db"),
        more);
  }

  private void refused(String sentence, String... more) {
    assertEquals(2, runSimulated(more), err::toString);
    assertEquals(1, err.toString().strip().lines().count(), err::toString);
    assertTrue(err.toString().contains(sentence), err::toString);
  }

  @Test
  void benchWithoutWiring() throws Exception {
    int board = text.indexOf("board:");
    int cups = text.indexOf("cups:");
    String unwired =
        text.substring(0, board)
            + text.substring(cups).replaceAll(", scale: s\\d+, valve: v\\d+", "");
    Files.writeString(bench, unwired);
    refused("run needs the bench's wiring");
  }

  @Test
  void cupWithoutValve() throws Exception {
    Files.writeString(bench, text.replace(", valve: v5", ""));
    assertEquals(2, runSimulated(), err::toString);
    assertEquals("Cup B1 has no valve.", err.toString().lines().toList().get(1));
  }

  @Test
  void wrongOptions() {
    refused("--speed: must be above 0", "--speed", "0");
  }

  @Test
  void watchedAndWateredAtOnce() {
    int exit =
        command.execute(
            List.of("run", "--bench", "bench.yaml", "--journal", "journal.db"),
            "--watch",
            "--water");
    assertEquals(2, exit, err::toString);
    assertTrue(err.toString().contains("--watch, --water are mutually exclusive"), err::toString);
  }

  @Test
  void brokerThatIsNoAddress() {
    refused("is not an address such as tcp://host:1883", "--broker", "somewhere");
  }

  @Test
  void brokerWithAPath() {
    refused("is not an address such as tcp://host:1883", "--broker", "tcp://127.0.0.1:1883/");
  }

  @Test
  void userWithoutPassword() {
    refused("--user and --password-file go together", "--user", "bench");
  }

  @Test
  void journalOfAnotherProgram() throws Exception {
    try (var db = DriverManager.getConnection("jdbc:sqlite:" + folder + "/journal.db");
        var statement = db.createStatement()) {
      statement.execute("CREATE TABLE plants (name TEXT)");
    }
    refused("is a database of another program");
  }

  @Test
  void linesOutOfOrder() throws Exception {
    Files.writeString(bench, text.replaceFirst("least_air: 0.10", "least_air: 0.45"));
    refused("bench.yaml cups.A3: with vessel short, mix coir-perlite");
  }
}
