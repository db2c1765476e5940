package dev.cupwarden.app.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.app.BackRoom;
import dev.cupwarden.app.CommandRun;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
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
    return exitCode(bench, "check", "--simulate", "--no-ask", "--tray", "16 L", "--confirm", "all");
  }

  private int run(String bench) throws Exception {
    return exitCode(bench, "run", "--journal", folder.resolve("journal.db").toString());
  }

  private static String with(String pattern, String replacement) {
    String text = BackRoom.text();
    String wrong = text.replaceFirst(pattern, replacement);
    assertFalse(wrong.equals(text), pattern);
    return wrong;
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "(?m)^  heartbeat: .*$ | '' | There is no heartbeat line, so nothing but the program stops a pump",
        "(?m)^  leak: .*$ | '' | There is no leak line, so water beside the cups runs on unseen",
        "(?m)^hose: .*$ | '' | The bench feeds and names no hose: measure what pump head, riser and manifold hold",
        "(?m)^    feed: \\{gpio: 4.*$ | '' | Nothing tells when the tank feed is empty",
        "(?m)^  bus: 1$ | '  bus: 1\n  mat: {}' | The heat mat has no high-limit cut-out",
        "(?m)^  root: .*$ | '  mat: {cut_out: 30 C}' | There is a heat mat and no root thermometer",
        "v5: \\{gpio: 18\\} | 'v5: {gpio: 8}' | Valve v5 hangs on GPIO 8, which is pulled up from power-up",
        "pump: \\{gpio: 17 | 'pump: {gpio: 7' | The pump hangs on GPIO 7, which is pulled up from power-up",
      })
  void whatDoesNotFailByItselfFailsHereAndDoesNotRun(
      String pattern, String replacement, String sentence) throws Exception {
    String wrong = with(pattern, replacement.replace("\\n", "\n"));
    assertEquals(1, check(wrong), said::toString);
    assertTrue(said.toString().contains("FAIL  parts        " + sentence), said::toString);
    assertTrue(said.toString().contains("1 to be put right"), said::toString);
    assertEquals(2, run(wrong), said::toString);
    assertTrue(
        said.toString().contains("not safe to leave alone, and does not run:"), said::toString);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "pump: \\{gpio: 17, | 'pump: {expander: 0x20, pin: 1,' | hangs the pump on the bus",
        "v5: \\{gpio: 18\\} | 'v5: {gpio: 12}' | 12 is already the line of board.valves.v2",
        "mux: 0x70, channel: 1, | 'mux: 0x70, channel: 0,' | 0x2A behind 0x70 channel 0 is already the place of board.scales.s1",
      })
  void whatCannotBeWiredIsRefusedWithTheBenchFile(
      String pattern, String replacement, String sentence) throws Exception {
    assertEquals(2, check(with(pattern, replacement)), said::toString);
    assertTrue(said.toString().contains(sentence), said::toString);
    assertEquals(1, said.toString().strip().lines().count(), said::toString);
  }

  @Test
  void aTrayThatHoldsLessThanTheTanksFails() throws Exception {
    assertEquals(
        1,
        exitCode(
            BackRoom.text(),
            "check",
            "--simulate",
            "--no-ask",
            "--tray",
            "15 L",
            "--confirm",
            "all"));
    assertTrue(said.toString().contains("The tanks hold 16.0 L, the drip tray 15.0 L"));
  }

  @Test
  void aScaleUnderNoCupIsNamedAndHoldsNothingUp() throws Exception {
    String one = with("(?m)^  C4: .*$", "");
    assertEquals(0, check(one), said::toString);
    assertTrue(
        said.toString().contains("Scale s12 is under no cup and no tank: name it with its cup"),
        said::toString);
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
