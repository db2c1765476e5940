package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.CommandRun;
import dev.cupwarden.app.ControllerRun;
import dev.cupwarden.app.loop.RunMode;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The example bench with one thing wrong each: what {@code check} says, and that it does not run.
 */
class WrongBenchesTest {
  private static final String HEARTBEAT = "(?m)^  heartbeat: .*$";
  private final CommandRun line = CommandRun.together();
  private final StringWriter said = line.out;
  @TempDir Path folder;

  private int exitCode(String bench, String... command) throws Exception {
    Path file = Files.writeString(folder.resolve("bench.yaml"), bench);
    return line.execute(List.of(command), "--bench", file.toString());
  }

  private int check(String bench) throws Exception {
    List<String> tray = bench.contains("tray:") ? List.of() : List.of("--tray", "16 L");
    List<String> words =
        new ArrayList<>(List.of("check", "--simulate", "--no-ask", "--confirm", "all"));
    words.addAll(tray);
    return exitCode(bench, words.toArray(String[]::new));
  }

  private int run(String bench, String... more) throws Exception {
    List<String> words =
        new ArrayList<>(List.of("run", "--journal", folder.resolve("journal.db").toString()));
    words.addAll(List.of(more));
    return exitCode(bench, words.toArray(String[]::new));
  }

  private static String with(String pattern, String replacement) {
    String text = BackRoom.text();
    String wrong = text.replaceFirst(pattern, replacement);
    assertFalse(wrong.equals(text), pattern);
    return wrong;
  }

  /** Twelve ways to build it wrong: an exit code and the one sentence for each. */
  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "no heartbeat              | 1 | (?m)^  heartbeat: .*$ | '' | FAIL  parts        There is no heartbeat line, so nothing but the program stops a pump that is stuck on: wire a pump-run timer (board.heartbeat), or say why not (board.without.heartbeat).",
        "no leak line              | 1 | (?m)^  leak: .*$ | '' | FAIL  parts        There is no leak line, so water beside the cups runs on unseen: wire a leak sensor (board.leak), or say why not (board.without.leak).",
        "no hose with feed         | 1 | (?m)^hose: .*$ | '' | FAIL  parts        The bench feeds and names no hose: measure what pump head, riser and manifold hold, and give it (hose), or say why not (board.without.hose).",
        "pump on the bus           | 2 | pump: \\{gpio: 17, | 'pump: {expander: 0x20, pin: 1,' | hangs the pump on the bus",
        "two valves on one line    | 2 | v5: \\{gpio: 18\\} | 'v5: {gpio: 12}' | 12 is already the line of board.valves.v2",
        "output pulled up at boot  | 1 | v5: \\{gpio: 18\\} | 'v5: {gpio: 8}' | FAIL  parts        Valve v5 hangs on GPIO 8, which is pulled up from power-up until the program starts, and so is on for that time: take one of GPIO 9 to 27.",
        "no tank gauge             | 1 | (?m)^    feed: \\{gpio: 4.*$ | '' | FAIL  parts        Nothing tells when the tank feed is empty, and a pump that sucks air counts as watering: wire a float or a scale (board.tanks), or say why not (board.without.tank-level).",
        "tray smaller than tanks   | 1 | (?m)^hose: | 'tray: 15 L\nhose:' | FAIL  tanks        The tanks hold 16.0 L, the drip tray 15.0 L: take smaller tanks or a larger tray.",
        "mat without cut-out       | 1 | (?m)^  bus: 1$ | '  bus: 1\n  mat: {}' | FAIL  parts        The heat mat has no high-limit cut-out, so a thermostat that sticks cooks the roots: fit one, and give where it ends the heat (board.mat.cut_out), or say why not (board.without.cut-out).",
        "mat, no root thermometer  | 1 | (?m)^  root: .*$ | '  mat: {cut_out: 30 C}' | FAIL  parts        There is a heat mat and no root thermometer, so nobody is told of roots that it cooks: put one into a cup (board.root), or say why not (board.without.root-thermometer).",
        "two chips at one address  | 2 | mux: 0x70, channel: 1, | 'mux: 0x70, channel: 0,' | 0x2A behind 0x70 channel 0 is already the place of board.scales.s1",
        "a scale without a cup     | 0 | (?m)^  C4: .*$ | '' | note  tubes        Scale s12 is under no cup and no tank: name it with its cup, or take it out.",
      })
  void eachWrongBenchIsToldInItsSentence(
      String which, int exitCode, String pattern, String replacement, String sentence)
      throws Exception {
    assertEquals(exitCode, check(with(pattern, replacement.replace("\\n", "\n"))), said::toString);
    assertTrue(said.toString().contains(sentence), said::toString);
    if (exitCode == 2) {
      assertEquals(1, said.toString().strip().lines().count(), said::toString);
    } else if (exitCode == 1) {
      assertTrue(said.toString().contains("1 to be put right"), said::toString);
    }
  }

  /** What only the file can tell, and a person at the machine need not be asked. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "pump: \\{gpio: 17 | 'pump: {gpio: 7' | The pump hangs on GPIO 7, which is pulled up",
        ", valve: v5 | '' | Cup B1 has no valve.",
        ", scale: s5, | ',' | Cup B1 has neither scale nor probe.",
        "(?m)^    plain: \\{gpio: 10, tank: plain\\}$ | '' | No valve leads from the tank plain.",
        "(?m)^  heartbeat: .*$ | '' | There is no heartbeat line",
        "(?m)^hose: | 'tray: 15 L\nhose:' | The tanks hold 16.0 L, the drip tray 15.0 L: take",
      })
  void whatCheckFailsDoesNotRunAndSaysTheSame(String pattern, String replacement, String sentence)
      throws Exception {
    String wrong = with(pattern, replacement.replace("\\n", "\n"));
    assertEquals(1, check(wrong), said::toString);
    String failed =
        said.toString().lines().filter(line -> line.startsWith("FAIL")).findFirst().orElseThrow();
    assertTrue(failed.contains(sentence), failed);
    assertEquals(2, run(wrong), said::toString);
    List<String> told = said.toString().lines().toList();
    assertTrue(told.get(0).endsWith("not safe to leave alone, and does not run:"), told::toString);
    assertEquals(failed.substring("FAIL  parts        ".length()), told.get(1));
  }

  @Test
  void aBenchThatIsOnlyWatchedNeedsNoneOfThem() throws Exception {
    String wrong = with(HEARTBEAT, "");
    run(wrong, "--watch");
    assertFalse(said.toString().contains("does not run"), said::toString);
    Path journal = folder.resolve("journal.db");
    ControllerRun.Plan watched =
        new ControllerRun.Plan(
            BackRoom.bench(),
            BackRoom.text(),
            journal,
            Optional.empty(),
            report -> {},
            RunMode.WATCH);
    Instant begins = Instant.parse("2027-01-10T06:00:00Z");
    ControllerRun.onSimulator(
            watched, new ControllerRun.Simulation(1, 1, Duration.ZERO, Optional.of(begins)))
        .close();
    run(wrong);
    assertFalse(said.toString().contains("does not run"), "a watch goes on");
    assertEquals(2, run(wrong, "--water"), said::toString);
    assertTrue(said.toString().contains("There is no heartbeat line"), said::toString);
  }

  @Test
  void aValveThatIsOnWhileLowAsksForAPullUpOfItsOwn() throws Exception {
    assertEquals(0, check(with("v5: \\{gpio: 18\\}", "v5: {gpio: 18, active: low}")));
    assertTrue(
        said.toString().contains("note  parts        Valve v5 is on while its line is low"),
        said::toString);
  }

  @Test
  void aPartMayBeMissingForAReasonThatIsToldEachTime() throws Exception {
    String waived =
        with(HEARTBEAT, "  without: {heartbeat: a float valve in the tray cuts the supply}");
    assertEquals(0, check(waived), said::toString);
    assertTrue(
        said.toString()
            .contains("Runs without heartbeat: a float valve in the tray cuts the supply"),
        said::toString);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{heartbeat: no} | \"no\" is no reason: expected 10 characters or more",
        "{heartbeat: ''} | expected 1 to 64 characters on one line",
        "{pump: too dear for us} | \"pump\" is not a key here; known: heartbeat, leak, hose",
      })
  void whatIsNoReasonIsRefused(String without, String sentence) throws Exception {
    assertEquals(2, check(with(HEARTBEAT, "  without: " + without)), said::toString);
    assertTrue(said.toString().contains(sentence), said::toString);
  }
}
