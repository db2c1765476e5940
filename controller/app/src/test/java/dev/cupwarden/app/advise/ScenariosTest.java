package dev.cupwarden.app.advise;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.cupwarden.app.BenchSource;
import dev.cupwarden.core.messages.Json;
import dev.cupwarden.core.messages.Schemas;
import dev.cupwarden.core.setup.SetupException;
import dev.cupwarden.core.tick.Tick;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * Replays every recorded situation, {@code scenarios/<situation>/{bench.yaml,in.jsonl,out.jsonl}},
 * through the very session that {@code advise} runs. By hand: {@code advise --bench bench.yaml <
 * in.jsonl}. What it is about stands in its {@code shows.json}, with values worked out by hand: a
 * recording alone would say yes to whatever the program did.
 */
class ScenariosTest {
  private static final Path SCENARIOS = Path.of("src/test/resources/scenarios");

  /** 1 and 1.0 are the same number, however an expected line was typed. */
  private static final Comparator<JsonNode> BY_VALUE =
      (one, other) ->
          one.isNumber() && other.isNumber()
              ? one.decimalValue().compareTo(other.decimalValue())
              : one.equals(other) ? 0 : 1;

  @TestFactory
  List<DynamicTest> everySituationIsAnsweredAsRecorded() throws IOException {
    try (Stream<Path> folders = Files.list(SCENARIOS)) {
      List<DynamicTest> situations =
          folders
              .filter(Files::isDirectory)
              .sorted()
              .map(
                  folder ->
                      DynamicTest.dynamicTest(
                          folder.getFileName().toString(), () -> replay(folder)))
              .toList();
      assertFalse(situations.isEmpty(), "there is no situation in " + SCENARIOS);
      return situations;
    }
  }

  private static void replay(Path folder) throws IOException, SetupException {
    List<String> expected = Files.readAllLines(folder.resolve("out.jsonl"));
    List<String> answers = answers(folder);
    for (int i = 0; i < Math.min(expected.size(), answers.size()); i++) {
      JsonNode wanted = Json.MAPPER.readTree(expected.get(i));
      JsonNode answer = Json.MAPPER.readTree(answers.get(i));
      Schemas.assertFits("advise-out", answer);
      if (!wanted.equals(BY_VALUE, answer)) {
        assertEquals(wanted.toPrettyString(), answer.toPrettyString(), folder + " line " + (i + 1));
      }
    }
    assertEquals(expected.size(), answers.size(), "lines of " + folder);
    showsWhatItSays(folder, answers);
  }

  private static void showsWhatItSays(Path folder, List<String> answers) throws IOException {
    JsonNode says = Json.MAPPER.readTree(folder.resolve("shows.json").toFile());
    assertFalse(says.path("shows").asText().isBlank(), folder + " says what it shows");
    assertFalse(says.path("expect").isEmpty(), folder + " expects something");
    for (JsonNode expected : says.path("expect")) {
      JsonNode answer = Json.MAPPER.readTree(answers.get(expected.path("line").asInt() - 1));
      JsonNode found = answer.at(expected.path("at").asText());
      assertTrue(
          fits(expected, found),
          () -> "%s: expected %s, found %s".formatted(folder.getFileName(), expected, found));
    }
  }

  private static boolean fits(JsonNode expected, JsonNode found) {
    JsonNode wanted = expected.get("is");
    if (wanted.isNull()) {
      return found.isMissingNode() || found.isNull();
    }
    return expected.has("within")
        ? found.isNumber()
            && Math.abs(found.asDouble() - wanted.asDouble()) <= expected.get("within").asDouble()
        : wanted.equals(BY_VALUE, found);
  }

  private static List<String> answers(Path folder) throws IOException, SetupException {
    Tick tick = BenchSource.tick(folder.resolve("bench.yaml"), Tick.Rounds.ONE_A_TICK);
    AdviseSession session = JsonSession.of(tick.bench(), new TickAdviser(tick), false, false);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (InputStream in = Files.newInputStream(folder.resolve("in.jsonl"))) {
      session.run(in, out);
    }
    return out.toString(StandardCharsets.UTF_8).lines().toList();
  }
}
