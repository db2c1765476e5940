package dev.cupwarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.setup.BenchTexts;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What a person sees who gets the command line wrong: one sentence, and 2. */
@Timeout(60)
class ControllerCommandTest {
  private final CommandRun command = CommandRun.apart();
  private final StringWriter out = command.out;
  private final StringWriter err = command.err;
  @TempDir private Path dir;

  private int execute(String... args) {
    return command.execute(args);
  }

  private void assertOneSentence(String sentence) {
    assertEquals(sentence, err.toString().strip());
  }

  @Test
  void helpAndVersionAreDone() {
    assertEquals(0, execute("advise", "--help"));
    assertTrue(out.toString().contains("--bench=FILE"), out.toString());
    assertEquals(0, execute("--version"));
  }

  @Test
  void noCommandShowsTheCommands() {
    assertEquals(2, execute());
    assertTrue(err.toString().contains("advise"), err.toString());
  }

  @Test
  void badUsageIsOneSentence() {
    assertEquals(2, execute("advise"));
    assertOneSentence(
        "Missing required option: '--bench=FILE'; see cupwarden-controller advise --help");
  }

  @Test
  void aMissingBenchFileIsOneSentence() {
    Path none = dir.resolve("none.yaml");
    assertEquals(2, execute("advise", "--bench", none.toString()));
    assertOneSentence(none + ": there is no such file: expected a bench file");
  }

  @Test
  void aDirectoryIsNoBenchFile() {
    assertEquals(2, execute("advise", "--bench", dir.toString()));
    assertOneSentence(dir + ": is a directory: expected a bench file");
  }

  @Test
  void aBrokenBenchFileIsOneSentence() throws IOException {
    Path broken = dir.resolve("bench.yaml");
    Files.writeString(
        broken,
        BenchTexts.backRoom().replace("mix: coir-perlite, plant: mul", "mix: cour, plant: mul"));
    assertEquals(2, execute("advise", "--bench", broken.toString()));
    assertOneSentence(
        broken + ":45:28 cups.A2.mix: \"cour\" is not a mix of this bench; known: coir-perlite");
  }

  @Test
  void aBenchFileThatIsNotTextIsOneSentence() throws IOException {
    Path binary = dir.resolve("bench.yaml");
    Files.write(binary, "bench: caf\u00e9".getBytes(StandardCharsets.ISO_8859_1));
    assertEquals(2, execute("advise", "--bench", binary.toString()));
    assertOneSentence(binary + ":1:11: is not UTF-8 text: save the file as UTF-8");
  }

  /** A mix that lacks air even when drained has its wet line above the due line. */
  @Test
  void aCupWhoseLinesDoNotFitItsMixIsOneSentence() throws IOException {
    Path unfit = dir.resolve("bench.yaml");
    Files.writeString(unfit, BenchTexts.backRoom().replace("least_air: 0.10", "least_air: 0.50"));
    assertEquals(2, execute("advise", "--bench", unfit.toString()));
    String sentence = err.toString().strip();
    assertTrue(sentence.startsWith(unfit + " cups.A1: with vessel tall, mix "), sentence);
    assertEquals(1, sentence.lines().count());
  }
}
