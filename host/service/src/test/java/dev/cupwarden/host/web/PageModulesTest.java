package dev.cupwarden.host.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.cupwarden.core.alerts.AlertCode;
import dev.cupwarden.core.limits.LimitCode;
import dev.cupwarden.core.messages.Json;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * The page's modules that draw nothing pass their own tests ({@code src/test/js}) in bare Node.js,
 * on the tables that the core publishes with a set-up.
 */
class PageModulesTest {
  private static final Path TESTS = Path.of("src", "test", "js");
  private static final Path FOLDER = Path.of("target", "page");
  private static final int PATIENCE_S = 60;

  @BeforeAll
  static void publishTables() throws IOException {
    Files.createDirectories(FOLDER);
    Files.writeString(
        FOLDER.resolve("tables.json"),
        Json.written(
            Map.of(
                "limits", Arrays.stream(LimitCode.values()).map(LimitCode::told).toList(),
                "alerts", Arrays.stream(AlertCode.values()).map(AlertCode::told).toList())));
  }

  @TestFactory
  Stream<DynamicTest> modulesPassTheirTestsInBareNode() throws IOException {
    List<Path> files;
    try (Stream<Path> all = Files.list(TESTS)) {
      files = all.filter(file -> file.toString().endsWith(".test.js")).sorted().toList();
    }
    assertFalse(files.isEmpty(), "no test in " + TESTS.toAbsolutePath());
    return files.stream()
        .map(file -> DynamicTest.dynamicTest(file.getFileName().toString(), () -> pass(file)));
  }

  private static void pass(Path file) throws IOException, InterruptedException {
    Path said = FOLDER.resolve(file.getFileName() + ".txt");
    Process node =
        new ProcessBuilder("node", "--test", file.toString())
            .redirectErrorStream(true)
            .redirectOutput(said.toFile())
            .start();
    try {
      assertTrue(node.waitFor(PATIENCE_S, TimeUnit.SECONDS), "not done in " + PATIENCE_S + " s");
    } finally {
      node.destroyForcibly();
    }
    String output = Files.readString(said);
    assertEquals(0, node.exitValue(), output);
    assertTrue(output.lines().anyMatch(line -> line.matches(".*\\bpass [1-9]\\d*")), output);
  }
}
